import { z } from 'zod';

/**
 * What a person may do. A volunteer treats or holds; a supervisor runs the desk; medical staff own the protocol; a
 * caregiver looks after animals between rounds. A veterinarian is medical staff with a licence on record.
 */
export const Role = z.enum(['volunteer', 'supervisor', 'medical', 'caregiver']);
export type Role = z.infer<typeof Role>;
