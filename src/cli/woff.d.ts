/** A font as the build puts it into the program: a data address in base64. */
declare module "*.woff?inline" {
  const address: string;
  export default address;
}
