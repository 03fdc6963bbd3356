/** The bytes of a font, put into the bundle when it is built. */
declare module "*.ttf" {
  const bytes: Uint8Array;
  export default bytes;
}
