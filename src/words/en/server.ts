export const server = {} as const satisfies Record<string, string>;
