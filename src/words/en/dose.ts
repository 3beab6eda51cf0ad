export const dose = {} as const satisfies Record<string, string>;
