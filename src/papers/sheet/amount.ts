import { writeStrength, writeVolume } from '../../core/quantity/write.js';
import type { DrawUp } from '../../log/prepare/draw-ups.js';
import { say } from '../../words/say.js';

/** What is to be drawn or given, as on the label; a dose that a gate stops shows no figure, but the words of its order. */
export function amountText({ dose }: Pick<DrawUp, 'dose'>): string {
  const words = dose.inWords === null ? '' : say('ribbon.sheet.in-words', { words: dose.inWords });
  if (dose.stopped) return [say('ribbon.sheet.stopped'), words].filter((part) => part !== '').join('. ');
  if (dose.inWords !== null) return words;
  if (dose.drawn !== null) {
    const { drawn } = dose;
    const volume = writeVolume(drawn.volume_ul);
    const each = drawn.scale === 'mL' ? volume : `${volume} (${drawn.mark})`;
    return dose.places === 1 ? each : say('drawup.sheet.times', { places: dose.places, each });
  }
  if (dose.pieces !== null) return say(dose.pieces);
  return dose.exact_ul === null ? '' : writeVolume(dose.exact_ul);
}

const injected = ['under the skin', 'into muscle', 'into a vein'];

/** The product with its strength, whether or not its name says that already; what is drawn from another vial has another. */
export function productText({ product, dose }: Pick<DrawUp, 'product' | 'dose'>): string {
  const own = product.ingredients[0]?.mg_per_ml ?? null;
  const figures: readonly string[] = product.name.match(/\d+(\.\d+)?/g) ?? [];
  const unsaid = own === null || figures.includes(own) ? null : own;
  const strength = dose.otherStrength ?? unsaid;
  return strength === null ? product.name : `${product.name} · ${writeStrength(strength)}`;
}

/** Where an injection or what goes on the skin is put; empty for what goes into the mouth. */
export function whereText({ product }: Pick<DrawUp, 'product'>): string {
  const { route, siteCode } = product;
  if (siteCode !== null && siteCode !== 'mouth') return `${route}, ${say(`drawup.site.${siteCode}`)}`;
  return injected.includes(route) ? route : '';
}

/** How much one place takes, where that is a limit and no dose: a person at the cage has to see it beside the order. */
export function limitText({ dose }: Pick<DrawUp, 'dose'>): string {
  const limit = dose.gates.find(({ code }) => code === 'limit-of-place');
  return limit === undefined ? '' : say(limit.why);
}
