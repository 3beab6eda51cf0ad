import { inMinutes } from '../../core/route-plan/explain/explain.js';
import { mostRunning } from '../../log/plan/settings.js';
import type { Section } from '../../log/views/shelter.js';
import { say } from '../../words/say.js';
import { ChooseOne, ChooseSome } from '../parts/fields/choices.js';
import { Field } from '../parts/fields/field.js';
import type { Planned } from '../plan/use-plan.js';
import type { Choices } from './use-round-plan.js';

const goodTime = /^([01]\d|2[0-3]):[0-5]\d$/;
const mostTeams = 4;

/** A time, or empty for none. */
export const isEndTime = (text: string): boolean => text === '' || goodTime.test(text);

/** Teams, which sections have one of their own, and the end of the shift. */
export function ChooseShift({ choices, sections }: { choices: Choices; sections: readonly Section[] }) {
  return (
    <>
      <Field
        label={say('ribbon.ends')}
        hint={say('ribbon.ends-hint')}
        value={choices.endsAt}
        onChange={(endsAt) => choices.change({ endsAt: endsAt.trim() })}
        narrow
        wrong={isEndTime(choices.endsAt) ? null : say('parts.time-wrong')}
      />
      <ChooseOne
        flow
        label={say('ribbon.teams')}
        options={Array.from({ length: mostTeams }, (_, i) => ({ id: String(i + 1), label: String(i + 1) }))}
        value={String(choices.teams)}
        onChange={(teams) => choices.change({ teams: Number(teams) })}
      />
      {choices.teams < 2 || sections.length < 2 ? null : (
        <ChooseSome
          flow
          label={say('ribbon.own-team')}
          options={sections.map(({ id, name }) => ({ id, label: name }))}
          value={choices.ownTeam}
          onChange={(ownTeam) => choices.change({ ownTeam })}
        />
      )}
    </>
  );
}

/** The settings, each with what another choice would cost or save today. */
export function ChooseSettings({ choices, planned, unit }: { choices: Choices; planned: Planned; unit: number }) {
  const { settings, change } = choices;
  const cost = (id: string): string | undefined => {
    const by = planned.advice?.alternatives.find((one) => one.id === id)?.by;
    if (by === undefined) return undefined;
    const minutes = inMinutes(Math.abs(by), unit);
    return by === 0
      ? say('ribbon.cost.none')
      : by > 0
        ? say('ribbon.cost.later', { minutes })
        : say('ribbon.cost.earlier', { minutes });
  };
  const withCost = (id: string, label: string, usual: boolean) => {
    const note = [usual ? say('ribbon.setting.usual') : '', cost(id) ?? ''].filter((one) => one !== '').join(' · ');
    return note === '' ? { label } : { label, note };
  };
  const yesOrNo = (
    id: 'put-back' | 'apart',
    value: boolean,
    usual: boolean,
    setting: (value: boolean) => Partial<typeof settings>,
  ) => (
    <ChooseOne
      flow
      label={say(`ribbon.setting.${id}`)}
      options={[
        { id: 'no', ...withCost(`${id}-no`, say('ribbon.setting.no'), !usual) },
        { id: 'yes', ...withCost(`${id}-yes`, say('ribbon.setting.yes'), usual) },
      ]}
      value={value ? 'yes' : 'no'}
      onChange={(answer) => change({ settings: { ...settings, ...setting(answer === 'yes') } })}
    />
  );
  return (
    <div className="stack">
      <p className="soft small">{say('ribbon.setting.standing')}</p>
      <ChooseOne
        flow
        label={say('ribbon.setting.limit')}
        options={Array.from({ length: mostRunning }, (_, i) => ({
          id: String(i + 1),
          ...withCost(`limit-${i + 1}`, say('ribbon.setting.tests', { count: i + 1 }), i === 1),
        }))}
        value={String(settings.runningLimit ?? mostRunning)}
        onChange={(limit) => change({ settings: { ...settings, runningLimit: Number(limit) } })}
      />
      <ChooseOne
        flow
        label={say('ribbon.setting.hold')}
        options={[0, 4, 10].map((minutes) => ({
          id: String(minutes),
          ...withCost(`hold-${minutes}`, say('ribbon.setting.minutes', { minutes }), minutes === 4),
        }))}
        value={String(settings.sampleHoldMinutes)}
        onChange={(hold) => change({ settings: { ...settings, sampleHoldMinutes: Number(hold) } })}
      />
      {yesOrNo('put-back', settings.putBackAllowed, false, (putBackAllowed) => ({ putBackAllowed }))}
      {yesOrNo('apart', settings.holderFetches, true, (holderFetches) => ({ holderFetches }))}
    </div>
  );
}
