/** The little that the bench calls of it. */
declare module "papaparse" {
  const papa: {
    parse(text: string, settings: { readonly dynamicTyping: boolean }): { readonly data: readonly unknown[][] };
  };
  export default papa;
}
