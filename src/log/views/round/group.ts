/** Animals that are handled one after the other in the same gloves: a litter, or one animal that is of none. */
export const groupOf = (animal: { readonly id: string; readonly litter: { readonly id: string } | null }): string =>
  animal.litter?.id ?? animal.id;
