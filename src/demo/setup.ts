import { addDays } from '../core/calendar.js';
import { toConfirm } from '../core/dosing/before-signing.js';
import type { FormularyDocument } from '../core/dosing/formulary.js';
import { choose } from '../core/protocol/document/choose.js';
import type { ProtocolDocument } from '../core/protocol/document/document.js';
import { describeShelter, fileFormulary, fileProtocol } from '../log/commands/shelter.js';
import { type Signer, signDocument } from '../log/commands/signing.js';
import { instantOf, minutes } from './instant.js';
import { castPeople, personDrafts } from './people.js';
import { dayBack, hand, type Scene, timeOn } from './scene.js';
import { partOf } from './slips.js';
import { productsFor } from './stock.js';
import { wardDrafts } from './wards.js';

export const shelterName = 'Inkwell Lane Cats (invented)';

export const statement =
  'Demo. This veterinarian, this shelter, its people and its animals are invented, and so is this signature. ' +
  'It shows how signing works and allows nothing: no real animal may be treated by it.';

/** The first morning: the shelter, its sections and people, the documents and their signature. */
export function setUp(scene: Scene, protocol: ProtocolDocument, starter: FormularyDocument): FormularyDocument {
  const { journal, people } = scene;
  const daysAgo = 42;
  const start = timeOn(scene, daysAgo, '06:30');
  const at = (after: number): string => instantOf(start + minutes(after));
  const desk = hand(scene, 'ada', 'desk');
  const medical = hand(scene, 'petra', 'desk');
  journal.write(desk, describeShelter({ name: shelterName, zone: journal.zone, weightUnit: 'g', demo: true }, at(0)));
  journal.write(desk, personDrafts(people, at(3)));
  journal.write(desk, wardDrafts(scene.wards, at(8)));

  const formulary = withStandingOrders(scene, protocol, starter);
  journal.write(medical, fileProtocol(protocol, at(15)));
  journal.write(medical, fileFormulary(starter, at(16)));
  journal.write(medical, fileFormulary(formulary, at(20)));
  const on = dayBack(scene, daysAgo);
  for (const [document, { id, version }] of [
    ['protocol', protocol],
    ['formulary', formulary],
  ] as const) {
    const { shelter } = journal.world();
    const confirmed = document === 'formulary' ? toConfirm(formulary).map((one) => one.key) : [];
    journal.write(
      medical,
      signDocument(shelter, veterinarian(scene), { document, id, version, on, statement, confirmed }, at(25)),
    );
  }
  return formulary;
}

/** The one veterinarian of the invented shelter, by name and licence. */
export function veterinarian({ people }: Scene): Signer {
  const found = castPeople.find((person) => person.licence !== '');
  if (found === undefined) throw new Error('the demo has no veterinarian');
  const { key, name, role, licence } = found;
  return { id: people[key], name, role, licence };
}

/** The starter formulary with the word of the invented veterinarian on products under their label age. */
function withStandingOrders(scene: Scene, protocol: ProtocolDocument, starter: FormularyDocument): FormularyDocument {
  const vet = castPeople.find((person) => person.licence !== '');
  const flea = protocol.schedules.find((schedule) => partOf(schedule) === 'flea');
  const product = flea === undefined ? undefined : productsFor(flea, starter)[0];
  if (vet === undefined || product === undefined || product.labelMinAge === null) return starter;
  return {
    ...starter,
    version: `${starter.version}-demo`,
    title: `${starter.title}, with a standing order of the demo`,
    standingOrders: [
      ...starter.standingOrders,
      {
        product: product.id,
        allows: 'below-label-age',
        minAge: { weeks: 4 },
        min_g: null,
        words:
          'Invented order of an invented veterinarian: kittens from 4 weeks, measured by weight, two people check the volume.',
        by: vet.name,
        licence: vet.licence,
        until: addDays(scene.journal.today, 200),
      },
    ],
  };
}

/** A change of the protocol laid before the veterinarian and not signed yet: another option of one choice. */
export function fileDraft(scene: Scene, daysAgo: number, protocol: ProtocolDocument): void {
  const choice = protocol.choices.find((one) => one.id === 'core-vaccine-end') ?? protocol.choices[0];
  const option = choice?.options.find((one) => one.id !== choice.chosen);
  if (choice === undefined || option === undefined) return;
  const changed = choose(protocol, choice.id, option.id);
  if (!changed.ok) return;
  const document = { ...changed.value, version: `${protocol.version}-draft` };
  const at = instantOf(timeOn(scene, daysAgo, '11:15'));
  scene.journal.write(hand(scene, 'petra', 'desk'), fileProtocol(document, at));
}
