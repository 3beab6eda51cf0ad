export const due = {} as const satisfies Record<string, string>;
