import { useState } from 'react';
import { leastMarks, type MarkKind, marksOf, tellingMarks } from '../../../core/animal/marks.js';
import { identify, scanChip } from '../../../log/commands/round.js';
import type { LogRecord } from '../../../log/record.js';
import type { AnimalStop } from '../../../log/views/round/round.js';
import { say } from '../../../words/say.js';
import { unlockSound } from '../../alarm/sound.js';
import { now } from '../../clock.js';
import { Act, BigButton } from '../../parts/act.js';
import { Tick } from '../../parts/fields/choices.js';
import { CatFace } from '../../parts/pictures/cat-face.js';
import { usePhoto } from '../../parts/pictures/use-picture.js';
import { useSave } from '../../store/save.js';
import { Acts, Pair, Trouble } from '../around/bits.js';
import { useRound } from '../around/use-round.js';
import { answersOf } from './identity-scan.js';

interface CompareProps {
  readonly stop: AnimalStop;
  /** A scan of a chip on nobody's record, read on this animal: once the marks agree it goes on its record. */
  readonly found: LogRecord<'chip-scanned'> | null;
  readonly onOther: () => void;
  readonly onOverride: () => void;
  readonly onNotThis: () => void;
}

/**
 * Collar, coat, mark and photo against the animal in the hands, one by one; all that are on record have to agree. A photo
 * that this device cannot show is not compared: the other marks then have to be enough by themselves.
 */
export function CompareMarks({ stop, found, onOther, onOverride, onNotThis }: CompareProps) {
  const { round, world } = useRound();
  const { animal } = stop;
  const photo = usePhoto(animal.marks.photo, 'full');
  const canSee = (kind: MarkKind): boolean => kind !== 'photo' || photo.address !== null;
  const marks = marksOf(animal).filter(canSee);
  const telling = tellingMarks(animal, world.animals.values()).filter(canSee);
  const [same, setSame] = useState<readonly MarkKind[]>([]);
  const { state, save } = useSave();
  const done = async (): Promise<void> => {
    void unlockSound();
    const at = now();
    const chip =
      found === null
        ? []
        : scanChip(
            animal.id,
            { target: 'animal', occasion: 'before', found: found.body.found, typed: found.body.typed, round },
            at,
          );
    const made = { round, by: 'marks' as const, compared: [...same], answers: answersOf(stop) };
    await save([...identify(animal.id, made, at), ...chip]);
  };
  return (
    <>
      <div className="round-body">
        <h2>{say('round.marks.title')}</h2>
        <div className="choices big">
          {marks.map((kind) => (
            <div key={kind} className="stack tight">
              {kind === 'photo' && photo.address !== null ? (
                <img className="photo-large" src={photo.address} alt={say('parts.photo', { name: animal.name })} />
              ) : null}
              <Tick
                label={kind === 'photo' ? say('round.marks.photo') : animal.marks[kind]}
                note={
                  telling.includes(kind)
                    ? say(`round.mark.${kind}`)
                    : say('round.marks.shared', { kind: say(`round.mark.${kind}`) })
                }
                value={same.includes(kind)}
                onChange={(on) => setSame(on ? [...same, kind] : same.filter((one) => one !== kind))}
              />
            </div>
          ))}
        </div>
        {marks.includes('photo') ? null : (
          <p className="row soft small">
            <CatFace name={animal.name} collar={animal.marks.collar} photo={null} size={44} />
            {say(animal.marks.photo === null ? 'round.marks.no-photo' : 'round.marks.photo-not-here')}
          </p>
        )}
      </div>
      <Acts>
        <Trouble state={state} />
        <BigButton
          why={
            telling.length < leastMarks
              ? say('round.why.photo-not-here')
              : marks.some((kind) => !same.includes(kind))
                ? say('round.why.marks', {
                    marks: {
                      list: marks.filter((kind) => !same.includes(kind)).map((kind) => say(`round.mark.${kind}`)),
                    },
                  })
                : null
          }
          onAct={done}
        >
          {say('round.marks.same', { animal: animal.name || animal.label })}
        </BigButton>
        <Pair>
          <Act size="mid" onAct={onNotThis}>
            {say('round.marks.differ')}
          </Act>
          <Act size="mid" onAct={onOther}>
            {say('round.identify.by-scan')}
          </Act>
        </Pair>
        <Act size="mid" onAct={onOverride}>
          {say('round.identify.override')}
        </Act>
      </Acts>
    </>
  );
}
