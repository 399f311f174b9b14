/** What the bench uses of packages that have no types of their own. */
declare module "react" {
  export function createElement(
    type: unknown,
    props?: object | null,
    ...children: unknown[]
  ): import("react").ReactElement;
  export type ReactElement = { readonly type: unknown };
}
declare module "pdfmake" {
  const pdfmake: {
    setUrlAccessPolicy(allows: (url: string) => boolean): void;
    setLocalAccessPolicy(allows: (path: string) => boolean): void;
    addFonts(fonts: object): void;
    createPdf(document: object): { getBuffer(): Promise<Buffer> };
  };
  export = pdfmake;
}
