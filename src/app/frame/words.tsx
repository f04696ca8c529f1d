/** A sentence in which the words of the file stand between backticks: those are set as such. */
export function Words({ text }: { readonly text: string }) {
  return <>{text.split("`").map((part, index) => (index % 2 === 1 ? <code key={index}>{part}</code> : part))}</>;
}
