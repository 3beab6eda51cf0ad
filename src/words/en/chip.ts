export const chip = {} as const satisfies Record<string, string>;
