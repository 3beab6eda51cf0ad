export const log = {} as const satisfies Record<string, string>;
