/** How one exchange with the server ended. */
export type Reach = { readonly reached: true } | { readonly reached: false; readonly code: string };
