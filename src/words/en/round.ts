export const round = {} as const satisfies Record<string, string>;
