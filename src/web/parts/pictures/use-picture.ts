import { useEffect, useState, useSyncExternalStore } from 'react';
import type { BlobId, Photo } from '../../../core/animal/photo.js';
import { named } from '../../../device/photos/make.js';
import { sync } from '../../store/exchange.js';
import { store } from '../../store/here.js';

/** Addresses in this page's memory by name, the last used at the end. Some hundred small pictures are a few megabytes. */
const addresses = new Map<BlobId, string>();
const most = 300;

function remember(id: BlobId, bytes: Uint8Array<ArrayBuffer>): string {
  const address = URL.createObjectURL(new Blob([bytes], { type: 'image/jpeg' }));
  addresses.set(id, address);
  const [first] = addresses.keys();
  if (addresses.size > most && first !== undefined) {
    URL.revokeObjectURL(addresses.get(first) ?? '');
    addresses.delete(first);
  }
  return address;
}

/** From this page, this device, or the server, whichever has it first; null when none has it now. */
async function addressOf(id: BlobId): Promise<string | null> {
  const known = addresses.get(id);
  if (known !== undefined) return known;
  const held = await store.db.pictures.get(id).catch(() => undefined);
  if (held !== undefined) return remember(id, held.bytes);
  const answer = await sync.client.picture(id);
  const made = answer.ok ? named(answer.value) : null;
  return made?.id === id ? remember(id, made.bytes) : null;
}

export interface Shown {
  /** For an `img`; null while it is looked for and when it is nowhere to be had. */
  readonly address: string | null;
  readonly looking: boolean;
}

/** A picture by its name. One that is nowhere to be had is looked for again whenever the server has been heard. */
function usePicture(id: BlobId | null): Shown {
  const heardAt = useSyncExternalStore(store.status.subscribe, () => store.status.get().heardAt);
  const [found, setFound] = useState<{ readonly id: BlobId; readonly address: string | null } | null>(null);
  const mine = found !== null && found.id === id ? found : null;
  const here = mine !== null && mine.address !== null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: looked for again when the server has been heard
  useEffect(() => {
    if (id === null || here) return;
    let over = false;
    void addressOf(id).then((address) => {
      if (!over) setFound({ id, address });
    });
    return () => {
      over = true;
    };
  }, [id, here, heardAt]);
  return { address: mine?.address ?? null, looking: id !== null && mine === null };
}

/** The small picture of a photo at once; where it is compared, the full one as soon as it is there. */
export function usePhoto(photo: Photo | null, as: keyof Photo): Shown {
  const small = usePicture(photo?.small ?? null);
  const full = usePicture(as === 'full' ? (photo?.full ?? null) : null);
  return full.address === null ? { ...small, looking: small.looking || full.looking } : full;
}
