/**
 * Whether a program that waits is a newer one: it waits beside the one in use. One that waits alone is the first on this
 * device; some browsers are slow to begin with it and are told of it as of any other.
 */
export const isNewer = (registration: Pick<ServiceWorkerRegistration, 'active' | 'waiting'> | undefined): boolean =>
  registration !== undefined && registration.active !== null && registration.waiting !== null;
