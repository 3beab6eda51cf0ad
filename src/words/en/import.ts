export const importing = {} as const satisfies Record<string, string>;
