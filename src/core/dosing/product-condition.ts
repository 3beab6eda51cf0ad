import { z } from 'zod';
import { Span } from '../calendar.js';
import { SourceId } from '../ids.js';
import { Standing } from './exact-text.js';
import { LabelWeight } from './label-weight.js';

/** What can be so of an animal and speak against a product; each has its name in the catalogue. */
export const seenKinds = [
  'pregnant',
  'nursing',
  'ill',
  'fever',
  'dehydrated',
  'cold',
  'thin',
  'weak',
  'convalescent',
  'retrovirus',
  'infection',
  'wet-coat',
  'surgery',
] as const;

const code = z
  .string()
  .max(60)
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/);
/** `stop`: not given. `ask-veterinarian`: only when the veterinarian has weighed it. `show`: said, and no stop. */
const does = z.enum(['stop', 'ask-veterinarian', 'show']);
const common = { does, words: z.string().min(1).max(300), source: SourceId, standing: Standing };

/**
 * A condition under which a product is not given, or only on the veterinarian's word; all of it is the document's own. The
 * least age and weight of a label have fields of their own beside these.
 */
export const ProductCondition = z.discriminatedUnion('is', [
  z.object({
    is: z.literal('seen'),
    kind: z.enum(seenKinds),
    /** Codes of observation, any of which shows it. */
    codes: z.array(code).min(1),
    /** How long what was seen counts when its own end was not noted; null for until somebody says otherwise. */
    lasts: Span.nullable().default(null),
    /** Whom it can concern; an animal whose sex or neutering is unknown may be concerned. */
    concerns: z
      .object({ sex: z.enum(['female', 'male']).optional(), unneutered: z.boolean().optional(), from: Span.optional() })
      .prefault({}),
    /** When nobody has said: go on, go on and ask, or stop until it is known. */
    unknown: z.enum(['go-on', 'ask', 'hold']),
    question: z.string().max(300).default(''),
    ...common,
  }),
  /** An age: it speaks against animals that may be younger than `under`, or may be as old as `from`. */
  z.object({ is: z.literal('age'), under: Span.nullable(), from: Span.nullable(), ...common }),
  /** A weight: it speaks against animals under the one, or over the other. */
  z.object({ is: z.literal('weight'), under: LabelWeight.nullable(), over: LabelWeight.nullable(), ...common }),
  /** A product of one of these classes went in less than so many whole days ago. */
  z.object({ is: z.literal('after-product'), classes: z.array(code).min(1), days: z.number().int().min(1), ...common }),
  /** A chip was put in less than so many whole days ago; one day is the day itself. */
  z.object({ is: z.literal('after-chip'), days: z.number().int().min(1), ...common }),
]);
export type ProductCondition = z.infer<typeof ProductCondition>;
