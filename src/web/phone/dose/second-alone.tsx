import { useState } from 'react';
import type { Dose } from '../../../core/dosing/dose.js';
import type { Product, Syringe } from '../../../core/dosing/formulary.js';
import { independently } from '../../../core/dosing/second.js';
import type { PersonId } from '../../../core/ids.js';
import type { Weight } from '../../../core/quantity/read-weight.js';
import { writeStrength } from '../../../core/quantity/write.js';
import { doseWords } from '../../../told/dose-words.js';
import { say } from '../../../words/say.js';
import { Act, BigButton } from '../../parts/act.js';
import { Pick } from '../../parts/fields/pick.js';
import { VolumeField, volumeIn } from '../../parts/fields/volume-field.js';
import { WeightField, weightIn } from '../../parts/fields/weight-field.js';
import { Notice } from '../../parts/state.js';
import { usePartner, usePeople, usePerson, useShelter } from '../../store/here.js';
import '../../style/draw-up.css';

interface SecondAloneProps {
  readonly name: string;
  readonly product: Product;
  readonly dose: Dose;
  readonly syringe: Syringe | null;
  /** Both came to the same: who the second was, and what they said. */
  readonly onAgreed: (by: PersonId, agreed: { readonly grams: number; readonly volume_ul: number | null }) => void;
  readonly onBack: () => void;
}

/**
 * The second person's own screen: no figure of the first answer is on it. They read weight and plunger themselves, and
 * only whether the two agree is said.
 */
export function SecondAlone({ name, product, dose, syringe, onAgreed, onBack }: SecondAloneProps) {
  const shelter = useShelter();
  const first = usePerson();
  const partner = usePartner();
  const [by, setBy] = useState<PersonId | null>(partner?.id ?? null);
  const [weightText, setWeightText] = useState('');
  const [weight, setWeight] = useState<Weight | null>(null);
  const [volumeText, setVolumeText] = useState('');
  const [volume, setVolume] = useState<number | null>(null);
  const [differs, setDiffers] = useState<string | null>(null);
  const others = usePeople().filter((one) => one.active && one.id !== first?.id);
  const scale = syringe?.scale ?? 'mL';
  const grams = weightIn(weightText, shelter.weightUnit, weight)?.grams ?? null;
  const ul = volumeIn(volumeText, scale, volume);
  const planned = dose.total_ul ?? dose.exact_ul;
  const strength = dose.otherStrength ?? product.ingredients[0]?.mg_per_ml ?? null;
  const compare = (): void => {
    if (by === null || grams === null || (planned !== null && ul === null)) return;
    const mark = syringe?.mark_ul ?? 1;
    // Tablets and tubes have no plunger to read: there only the weight is held against the first one.
    const answer = independently(
      { grams: dose.grams, volume_ul: planned ?? 0 },
      { grams, volume_ul: planned === null ? 0 : (ul ?? 0) },
      mark,
    );
    if (answer.agree) {
      onAgreed(by, { grams, volume_ul: planned === null ? null : ul });
      return;
    }
    setDiffers(say(answer.why));
    setWeightText('');
    setWeight(null);
    setVolumeText('');
    setVolume(null);
  };
  return (
    <section className="step-card second-alone" aria-label={say('drawup.second.title')}>
      <h2>{say('drawup.second.title')}</h2>
      <p className="how">{say('drawup.second.how', { name })}</p>
      <p className="how">
        <b className="ink">{product.name}</b>
        {strength === null ? null : ` · ${writeStrength(strength)}`}
        {` · ${ruleOf(dose, product)}`}
      </p>
      {dose.gates.some(({ code }) => code === 'mark-in-band') ? (
        <p className="how">
          {say('drawup.second.mark-in-band', {
            low: product.band?.low ?? '',
            high: product.band?.high ?? '',
          })}
        </p>
      ) : null}
      {syringe === null ? null : <p className="how">{say('drawup.second.syringe', { syringe: syringe.name })}</p>}
      {differs === null ? null : (
        <Notice tone="stop" live="alert">
          {differs}
        </Notice>
      )}
      <Pick
        label={say('drawup.second.who')}
        options={others.map((one) => ({ id: one.id, label: one.name }))}
        value={by}
        onChange={setBy}
      />
      <WeightField
        label={say('drawup.second.weight')}
        unit={shelter.weightUnit}
        text={weightText}
        onText={setWeightText}
        chosen={weight}
        onChosen={setWeight}
      />
      {planned === null ? null : (
        <VolumeField
          label={say(scale === 'mL' ? 'drawup.second.volume' : 'drawup.second.volume-units')}
          text={volumeText}
          onText={setVolumeText}
          chosen={volume}
          onChosen={setVolume}
          scale={scale}
        />
      )}
      <BigButton
        why={
          by === null || grams === null || (planned !== null && ul === null) ? say('drawup.second.first-answer') : null
        }
        onAct={compare}
      >
        {say('drawup.second.compare')}
      </BigButton>
      <Act size="mid" onAct={onBack}>
        {say('round.back')}
      </Act>
    </section>
  );
}

/** What it is worked out from: the order where there is one, else the formulary. */
function ruleOf(dose: Dose, product: Product): string {
  if (dose.inWords !== null) return say('drawup.in-words', { words: dose.inWords });
  return dose.byOrder === null ? doseWords(product.dose) : say('round.give.by-order', { ordered: dose.byOrder });
}
