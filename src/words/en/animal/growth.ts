/** Sentences about the weight curve. */
export const growth = {
  'growth.newborn-no-gain': 'No gain in the first two days ({from}, then {to}). Tell the medical team now.',
  'growth.loss':
    'Lost {percent}\u00a0percent in {hours, plural, one {# hour} other {# hours}} ({from}, then {to}). Tell the medical team.',
  'growth.loss-week':
    'Lost {percent}\u00a0percent within a week, in {hours, plural, one {# hour} other {# hours}} ({from}, then {to}). Tell the medical team.',
  'growth.loss-month':
    'Lost {percent}\u00a0percent in {days, plural, one {# day} other {# days}} ({from}, then {to}), little by little. Tell the medical team.',
  'growth.no-gain-week':
    'No gain in {days, plural, one {# day} other {# days}} ({from}, now {to}), at an age at which a kitten gains every week. Tell the medical team.',
  'growth.loss-tenth':
    'Lost {percent}\u00a0percent in {hours, plural, one {# hour} other {# hours}} ({from}, then {to}). Tell the medical team now.',
  'growth.no-gain':
    'No gain in {hours, plural, one {# hour} other {# hours}} ({from}). Weigh again and tell the caregiver.',
  'growth.slow-gain':
    'Gains {perDay}\u00a0g a day ({from}, then {to} after {hours, plural, one {# hour} other {# hours}}); at least {least} are expected.',
  'growth.birth-weight-not-doubled': 'At {age} of age not yet double the birth weight ({from}, now {to}).',
  'growth.age-hint':
    '{weight} is usual at {same, select, yes {{from}} other {{from} to {to}}} of age ({table}). A hint only: teeth and eyes count more.',
  'growth.age-hint-none': '{weight} lies outside every age of the table ({table}).',
} as const satisfies Record<string, string>;
