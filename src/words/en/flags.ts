export const flags = {} as const satisfies Record<string, string>;
