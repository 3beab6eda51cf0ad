import { getResponder } from '@homebridge/ciao';

/** Milliseconds after which the network has not answered whether a name is free. */
const patience_ms = 10_000;

export interface Announced {
  /** False when another computer has the name, or the network takes no announcements. */
  readonly has: boolean;
  readonly close: () => Promise<void>;
}

/**
 * Tell the network that this computer has a name that ends in .local (multicast DNS, RFC 6762). The name is asked for first;
 * where another computer has it, nothing is told.
 */
export async function announce(name: string, port: number): Promise<Announced> {
  const responder = getResponder();
  const host = name.replace(/\.local$/, '');
  const close = async (): Promise<void> => {
    await responder.shutdown().catch(() => undefined);
  };
  try {
    const service = responder.createService({
      name: 'Roundhand',
      type: 'https',
      port,
      hostname: host,
      // The server listens on IPv4.
      disabledIpv6: true,
    });
    let timer: NodeJS.Timeout | undefined;
    const tooLong = new Promise<never>((_done, fail) => {
      timer = setTimeout(() => fail(new Error('no answer')), patience_ms);
    });
    await Promise.race([service.advertise(), tooLong]).finally(() => clearTimeout(timer));
    // The library takes the next name that is free; a phone would then be told one that the certificate is not for.
    if (service.getHostname().toLowerCase() === `${name}.`) return { has: true, close };
  } catch {
    // Said by whoever asked: the address is still there.
  }
  await close();
  return { has: false, close: async () => undefined };
}
