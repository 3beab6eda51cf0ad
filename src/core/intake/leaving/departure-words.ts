/**
 * Words of shelters for animals that have died or left, in plain form. Common practice, no source. A word here only
 * brings a question: nothing is turned away for it without a person, but for the plain words of death.
 */

/** Said of an animal that has died, anywhere in a cell, also in one about its place. */
export const deathPhrases: readonly string[] = [
  'passed away',
  'passed over',
  'rip',
  'r i p',
  'rest in peace',
  'put down',
  'rainbow bridge',
  'crossed over',
  'over the bridge',
];

/** Said of one that has left, anywhere in a short cell. */
export const departurePhrases: readonly string[] = [
  'adopt',
  'awol',
  'claimed',
  'collected',
  'discharged',
  'gone',
  'moved on',
  'moved out',
  'ran away',
  'run away',
  'sent to',
  'signed out',
  'signed over to',
  'sold',
  'tfr',
  'trf',
  'xfer',
];

/** The same, in words that also hold one of those for an animal that is here. */
export const firmDepartures: readonly string[] = [
  'no longer',
  'not here',
  'not in care',
  'left us',
  'gone from',
  'picked up',
];

/** Words with other meanings: only where a cell says nothing else, or under a heading of states. */
export const departureAlone: readonly string[] = [
  'away',
  'closed',
  'expired',
  'left',
  'moved',
  'off site',
  'out',
  'passed',
  'removed',
];

/** Cells that say plainly that the animal is here: they leave nothing open beside others that do not. */
export const herePhrases: readonly string[] = [
  'active',
  'adoptable',
  'adoption pending',
  'alive',
  'available',
  'available for adoption',
  'current',
  'here',
  'in',
  'in care',
  'in foster',
  'in foster care',
  'in house',
  'in quarantine',
  'in shelter',
  'in the shelter',
  'on hold',
  'on site',
  'present',
  'resident',
  'up for adoption',
];

/** Headings of a column of states, where every cell is about what became of the animal. */
export const stateHeadings = /\b(status|state|outcome|fate|disposition|situation|whereabouts|what happened)\b/;

/** Headings that say nothing but one of these, and words such as `date` and `how`. */
export const departureHeadings: readonly string[] = [
  'awol',
  'claimed',
  'closed',
  'collected',
  'crossed',
  'discharge',
  'discharged',
  'escape',
  'escaped',
  'escapes',
  'gone',
  'lost',
  'missing',
  'moved',
  'moved on',
  'outgoing',
  'owner claimed',
  'owner collected',
  'owner picked up',
  'passed',
  'picked up',
  'pick up',
  'removed',
  'sent',
  'signed out',
  'sold',
  'stolen',
];
