/** Sentences about the plan of a round: how good it is, why it is so, what changed, what is left. */
export const plan = {
  'plan.takes': '{minutes}\u00a0min, of which {work}\u00a0min are work.',
  'plan.shortest': 'No order is shorter.',
  'plan.gap': 'Within {percent}\u00a0% of the best possible.',

  'plan.binds.work': 'The work itself sets the end: nobody waits for a test.',
  'plan.binds.tail': 'The last test sets the end: draws and starts come before it, then it runs its full time.',
  'plan.binds.fill': 'The last test sets the end: there is too little left to do while it runs.',
  'plan.binds.limit': 'The number of tests that may run at once sets the end.',
  'plan.binds.kits': 'The last kit sets the end: it has to warm first.',
  'plan.binds.order':
    'The last test sets the end: one animal out at a time and one litter after another leave too little to do while it runs.',

  'plan.ends.reading': 'The last step is the reading for {animal}.',
  'plan.ends.handling': 'The last step is {animal}.',

  'plan.waits.reading':
    '{minutes}\u00a0min of waiting before the reading for {animal}: nothing that is left fits in safely.',
  'plan.waits.kit':
    '{minutes}\u00a0min of waiting before the test for {animal}: its kit is still warming or the limit is reached.',
  'plan.waits.holder': '{minutes}\u00a0min of waiting until the holder has brought {animal}.',
  'plan.waits.other': '{minutes}\u00a0min of waiting before {animal}.',

  'plan.why.others-last': '{animals} without a test: kept for the time the last test runs.',
  'plan.why.rest-last': '{animal} is the last to be tested, as the rest of its treatment fills that time.',
  'plan.why.started-together':
    '{times, plural, one {Once, two tests are started} other {# times, two tests are started}} one right after the other, so that their readings fall together.',
  'plan.why.put-back': '{animals}: put back after the draw and fetched again.',
  'plan.safe': 'Every step may take {times} times its planned time and no reading is missed.',

  'plan.saves.team': 'A second team would save {minutes}\u00a0min.',
  'plan.saves.apart':
    'A holder who fetches the next animal while the treater starts or reads a test would save {minutes}\u00a0min.',
  'plan.saves.holder': 'A second holder who fetches and puts back would save {minutes}\u00a0min.',
  'plan.saves.limit': 'One more test running at once would save {minutes}\u00a0min.',
  'plan.saves.hold': 'Letting blood wait 10\u00a0min, labelled, would save {minutes}\u00a0min.',
  'plan.saves.put-back': 'Putting animals back after the draw would save {minutes}\u00a0min, with more captures.',
  'plan.saves.kits': 'Kits that are warm at the start would save {minutes}\u00a0min.',
  'plan.saves.safety': 'Planning without any reserve would save {minutes}\u00a0min, and readings would be missed.',

  'plan.change.left-out': '{animal} is left out.',
  'plan.change.test-left-out': 'The test for {animal} is left out.',
  'plan.change.blood-too-old':
    'The blood of {animal} waits longer than it may, and its test has not started: draw it again once a kit is ready.',
  'plan.change.lost': 'The test for {animal} can no longer be read in time: it is invalid and has to be repeated.',
  'plan.change.now-first': '{animal} comes next now.',
  'plan.change.comes-after': '{animal} comes after {other} now.',
  'plan.change.later': 'The end is {minutes}\u00a0min later.',
  'plan.change.earlier': 'The end is {minutes}\u00a0min earlier.',

  'plan.order.unknown': '{animal} is not in this section.',
  'plan.order.twice': '{animal} stands twice in the order.',
  'plan.order.litter-parted':
    '{animal} cannot come after {other}: litter {litter} is handled together, with fresh gloves before the next.',

  'plan.short.ready':
    'Syringes with anticoagulant: {left} ready, {wanted} wanted, one for each draw. The supervisor or the medical team makes more ready.',
  'plan.short.syringes':
    '{left, plural, =0 {No syringe with anticoagulant is} one {One syringe with anticoagulant is} other {# syringes with anticoagulant are}} ready for {wanted, plural, one {# draw} other {# draws}}. Left without a test: {animals}. {more, plural, one {One more has} other {# more have}} to be made ready.',
  'plan.short.kits':
    '{kit}: {left, plural, =0 {no test is} one {one test is} other {# tests are}} left for {wanted}. Left without it: {animals}. {more, plural, one {One more test is} other {# more tests are}} needed.',
  'plan.alone': 'Whoever works alone draws no blood and puts in no chip. Left until a second person holds: {animals}.',
  'plan.two-from-one-draw':
    'In {section} one draw serves {count} tests: as many may run at once there, whatever is set, and the blood for the next waits while one is started.',

  'plan.left.overdue':
    '{animal} is left, {days, plural, one {# day} other {# days}} overdue: it needs {minutes}\u00a0min more.',
  'plan.left.due': '{animal} is left: it needs {minutes}\u00a0min more.',
  'plan.shift-too-short': 'The shift is too short for even one animal.',
  'plan.in-section': '{section}:',
  'plan.own-team':
    'Sections with a team of their own: that needs at least {count, plural, one {# team} other {# teams}}, of two people where blood is drawn or a chip put in.',
  'plan.needs-two': 'Something for {animal} needs two people, and everybody works alone.',
  'plan.none': 'There is no plan: blood would have to wait longer for its kit than it may.',
  'plan.input': 'The plan cannot be made. At {where}: {what}.',
  'plan.input.state': 'The state does not fit the section: look at {animal}.',
} as const satisfies Record<string, string>;
