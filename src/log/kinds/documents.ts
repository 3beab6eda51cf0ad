import { z } from 'zod';
import { CalendarDate } from '../../core/calendar.js';
import { FormularyDocument } from '../../core/dosing/formulary.js';
import { ProtocolDocument } from '../../core/protocol/document/document.js';

/** A version of the protocol laid before the shelter; a draft until signed. */
export const ProtocolFiled = z.object({ protocol: ProtocolDocument });

/** A version of the formulary (products, kits, syringes); a draft until signed. */
export const FormularyFiled = z.object({ formulary: FormularyDocument });

export const DocumentSigned = z.object({
  document: z.enum(['protocol', 'formulary']),
  id: z.string().min(1),
  version: z.string().min(1),
  signer: z.string().min(1).max(120),
  licence: z.string().min(1).max(120),
  on: CalendarDate,
  statement: z.string().max(1000),
  /** Figures from memory that the signer confirmed, each by its key in the document. */
  confirmed: z.array(z.string().min(1).max(400)).max(1000).default([]),
});

export const DocumentRetired = z.object({
  document: z.enum(['protocol', 'formulary']),
  id: z.string().min(1),
  version: z.string().min(1),
  why: z.string().max(1000),
  /** The own licence of who retires it. Without one it is retired all the same, in an emergency, and is a stop. */
  licence: z.string().min(1).max(120).optional(),
});
