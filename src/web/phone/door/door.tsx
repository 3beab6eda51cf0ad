import { useState } from 'react';
import { useLocation } from 'wouter';
import { rankOrder } from '../../../core/biosecurity/section.js';
import { enterSection } from '../../../log/commands/round.js';
import { leftOpenIn } from '../../../log/plan/left-open.js';
import type { SectionStop } from '../../../log/views/round/round.js';
import { sectionOf } from '../../../log/views/shelter.js';
import { itemText } from '../../../told/item-text.js';
import { animalName } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act, BigButton } from '../../parts/act.js';
import { ChooseOne, Tick } from '../../parts/fields/choices.js';
import { leavePath, roundPath } from '../../parts/round-paths.js';
import { Notice } from '../../parts/state.js';
import { useSave } from '../../store/save.js';
import { Acts, Place, Trouble } from '../around/bits.js';
import { useRound } from '../around/use-round.js';
import { ScanOpens } from '../identify/scan-opens.js';
import { useWet, WetTime } from './wet-cart.js';

const backReasons = ['forgotten', 'reading', 'emergency', 'asked', 'other'] as const;

/** At the door: what is put on, item by item, before anybody goes in; a reason to go back to a cleaner section. */
export function Door({ at }: { at: SectionStop }) {
  const { view, world, shelter, round } = useRound();
  const { section } = at;
  const [worn, setWorn] = useState<readonly string[]>([]);
  const [why, setWhy] = useState<(typeof backReasons)[number] | null>(null);
  const [, go] = useLocation();
  const wetFrom = useWet().map(({ section: name }) => name);
  const [wetKnown, setWetKnown] = useState(false);
  const { state, save } = useSave();
  const inside = view.stops.find((stop) => stop.state === 'inside');
  const worst = Math.max(-1, ...view.facts.visits.map((visit) => rankOf(sectionOf(shelter, visit.section))));
  const back = rankOrder(section.rank) < worst;
  const missing = section.wear.filter((item) => !worn.includes(item)).map(itemText);
  const why_ =
    missing.length > 0
      ? say('round.why.not-on', { items: { list: missing } })
      : back && why === null
        ? say('round.why.back')
        : wetFrom.length > 0 && !wetKnown
          ? say('round.why.wet', { sections: { list: wetFrom } })
          : null;
  const enter = async (): Promise<void> => {
    const body = {
      section: section.id,
      worn: [...worn],
      wentBackBecause: back && why !== null ? say(`round.door.back.${why}`) : '',
    };
    await save(enterSection(shelter, view.facts, body, now()));
  };
  if (inside !== undefined) {
    return (
      <>
        <ScanOpens opens={false} door={section} />
        <Place at={at} />
        <div className="round-body">
          <Notice tone="attention">{say('round.door.still-inside', { section: inside.section.name })}</Notice>
        </div>
        <Acts>
          <BigButton onAct={() => go(leavePath(round, inside.section.id))}>
            {say('round.door.leave-first', { section: inside.section.name })}
          </BigButton>
          <Act size="mid" onAct={() => go(roundPath(round))}>
            {say('round.to-round')}
          </Act>
        </Acts>
      </>
    );
  }
  return (
    <>
      <ScanOpens opens={false} door={section} />
      <Place at={at} />
      <div className="round-body">
        <h1>{say('round.door.title', { section: section.name })}</h1>
        {back ? (
          <>
            <Notice tone="stop">{say('round.door.going-back', { section: section.name })}</Notice>
            <ChooseOne
              label={say('round.door.why-back')}
              options={backReasons.map((id) => ({ id, label: say(`round.door.back.${id}`) }))}
              value={why}
              onChange={setWhy}
              big
            />
          </>
        ) : null}
        {leftOpenIn(view)
          .filter((one) => one.section !== section.id)
          .map((one) => (
            <Notice key={one.section} tone="attention">
              {say('round.door.left-open', {
                count: one.animals.length,
                section: sectionOf(shelter, one.section)?.name ?? one.section,
                animals: { list: one.animals.map((id) => animalName(world, id)) },
              })}
            </Notice>
          ))}
        <p>{section.wear.length === 0 ? say('round.door.nothing-to-wear') : say('round.door.put-on')}</p>
        <div className="choices big">
          {section.wear.map((item) => (
            <Tick
              key={item}
              label={itemText(item)}
              value={worn.includes(item)}
              onChange={(on) => setWorn(on ? [...worn, item] : worn.filter((one) => one !== item))}
            />
          ))}
          {wetFrom.length === 0 ? null : (
            <Tick
              label={say('round.door.wet-known', { sections: { list: wetFrom } })}
              value={wetKnown}
              onChange={setWetKnown}
            />
          )}
        </div>
      </div>
      <Acts>
        <Trouble state={state} />
        <WetTime short />
        <BigButton why={why_} onAct={enter}>
          {say('round.door.enter')}
        </BigButton>
        <Act size="mid" onAct={() => go(roundPath(round))}>
          {say('round.to-round')}
        </Act>
      </Acts>
    </>
  );
}

const rankOf = (section: ReturnType<typeof sectionOf>): number => (section === null ? -1 : rankOrder(section.rank));
