/** The serializers come without types. */
declare module '@jscad/stl-serializer' {
  const serializer: {
    serialize(options: { binary: boolean }, ...shapes: unknown[]): (string | ArrayBuffer)[];
  };
  export default serializer;
}
declare module '@jscad/obj-serializer' {
  const serializer: { serialize(options: object, ...shapes: unknown[]): string[] };
  export default serializer;
}
