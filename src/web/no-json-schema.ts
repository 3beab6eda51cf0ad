/**
 * Stands in, in the pages, for the parts of the schema library that write a schema down as a document (openapi.json):
 * only the server does that, and every page carried 19 kB of script for it.
 */
const notHere = (): never => {
  throw new Error('A page writes no schema down; the server does.');
};

export const createToJSONSchemaMethod = () => notHere;
export const createStandardJSONSchemaMethod = () => notHere;
/** Named by the library itself, called by no page. */
export const toJSONSchema = notHere;
