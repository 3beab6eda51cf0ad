import { useId, useState } from 'react';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';

/** Longest edge of a kept picture, and the most characters of its data URL that the record takes. */
const edge_px = 640;
const most = 400_000;

/** A picture that tells the animal from its look-alikes, made small on the device. */
export function PhotoField({ value, onChange }: { value: string; onChange: (photo: string) => void }) {
  const id = useId();
  const [wrong, setWrong] = useState(false);
  const take = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    const small = await smaller(file);
    setWrong(small === null);
    if (small !== null) onChange(small);
  };
  return (
    <div className="field">
      <label htmlFor={id}>{say('desk.animal.photo')}</label>
      <input id={id} type="file" accept="image/*" onChange={(event) => void take(event.currentTarget.files?.[0])} />
      {wrong ? <div className="wrong">{say('desk.animal.photo-wrong')}</div> : null}
      {value === '' ? null : (
        <div className="row">
          <img src={value} alt={say('desk.animal.photo')} style={{ width: 96, height: 96, objectFit: 'cover' }} />
          <Act size="small" onAct={() => onChange('')}>
            {say('desk.animal.photo-away')}
          </Act>
        </div>
      )}
    </div>
  );
}

async function smaller(file: File): Promise<string | null> {
  try {
    const picture = await createImageBitmap(file);
    const scale = Math.min(1, edge_px / Math.max(picture.width, picture.height));
    const canvas = document.createElement('canvas');
    canvas.width = Math.round(picture.width * scale);
    canvas.height = Math.round(picture.height * scale);
    canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
    const url = [0.8, 0.6, 0.4]
      .map((quality) => canvas.toDataURL('image/jpeg', quality))
      .find((one) => one.length <= most);
    return url ?? null;
  } catch {
    return null;
  }
}
