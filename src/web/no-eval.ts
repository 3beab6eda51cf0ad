import { config } from 'zod';

// The policy of our pages refuses code made from text. Schemas would try it, be refused, and go on without; every page would be noted as one that tried.
config({ jitless: true });
