/** The little that the benches call of it. */
declare module "papaparse" {
  interface InPieces {
    readonly dynamicTyping: boolean;
    readonly chunk: (piece: { readonly data: readonly unknown[] }) => void;
    readonly complete: () => void;
    readonly error: (reason: unknown) => void;
  }
  const papa: {
    parse(text: string, settings: { readonly dynamicTyping: boolean }): { readonly data: readonly unknown[][] };
    parse(stream: NodeJS.ReadableStream, settings: InPieces): void;
  };
  export default papa;
}
