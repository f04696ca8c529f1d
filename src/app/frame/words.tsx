/** A sentence in which the words of the file stand between backticks: those are set as such. */
export function Words({ text }: { readonly text: string }) {
  return (
    <>
      {text.split("`").map((part, index) =>
        // biome-ignore lint/suspicious/noArrayIndexKey: the parts of one sentence never change places
        index % 2 === 1 ? <code key={index}>{part}</code> : part,
      )}
    </>
  );
}
