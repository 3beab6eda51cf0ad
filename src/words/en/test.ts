export const test = {} as const satisfies Record<string, string>;
