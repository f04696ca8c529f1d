/** How sure every figure is: placeholder for the types. */
export interface Doubt { readonly path: string; readonly halfWidth: number }
export interface Doubts { readonly byFigure: ReadonlyMap<string, readonly Doubt[]> }
