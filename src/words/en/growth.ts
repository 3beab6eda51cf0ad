export const growth = {} as const satisfies Record<string, string>;
