export const parts = {} as const satisfies Record<string, string>;
