import { z } from 'zod';

/** The code under which the look with the ringworm lamp is noted. */
export const lampCode = 'ringworm-lamp';

/**
 * What the lamp showed. A glow is a suspicion: only bright green hairs count, other colours do not, and a medicine on
 * the coat glows too. No glow rules nothing out: about half of the cases glow. Sources: Newbury and Moriello, summary on
 * ringworm in shelters; shelter examination items for the half (a secondary source of low grade).
 */
export const lampAnswers = ['no-glow', 'glow', 'unsure'] as const;
export const LampAnswer = z.enum(lampAnswers);
export type LampAnswer = z.infer<typeof LampAnswer>;
