/** Sentences about the weight curve. */
export const growth = {
  'growth.loss':
    'Lost {percent}\u00a0percent in {unit, select, days {{time, plural, one {# day} other {# days}}} other {{time, plural, =0 {less than an hour} one {# hour} other {# hours}}}} ({from}, now {to}). Tell the medical team{grave, select, yes { now} other {}}.',
  'growth.no-gain':
    'No gain in {unit, select, days {{time, plural, one {# day} other {# days}}} other {{time, plural, one {# hour} other {# hours}}}} ({from}, now {to}). Weigh again, and tell the medical team{grave, select, yes { now} other {}}.',
  'growth.slow-gain':
    'Gains {perDay}\u00a0g a day ({from}, then {to} after {unit, select, days {{time, plural, one {# day} other {# days}}} other {{time, plural, one {# hour} other {# hours}}}}); at least {least} are expected.',
  'growth.birth-weight-not-doubled': 'At {age} of age not yet double the birth weight ({from}, now {to}).',
  'growth.age-hint':
    '{weight} is usual at {same, select, yes {{from}} other {{from} to {to}}} of age ({table}). A hint only: teeth and eyes count more.',
  'growth.age-hint-none': '{weight} lies outside every age of the table ({table}).',
} as const satisfies Record<string, string>;
