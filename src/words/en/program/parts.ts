export const parts = {
  'parts.weight.other-scale': 'This was another scale than before',
  'parts.weight.other-scale-why': 'Two scales that agree prove what one alone does not.',
  'parts.window-title': '{title} · Roundhand',
  'parts.demo': 'Invented animals and people.',
  'parts.advises': 'Roundhand advises; the veterinarian of record and local rules decide.',
  'parts.skip': 'Skip to the page',
  'parts.broken':
    'This page cannot be shown: {detail}. What was recorded is kept; the running tests and their alarm go on. Tell the desk what you did last.',
  'parts.broken-again': 'Show it again',
  'parts.opening': 'Opening …',
  'parts.not-fetched-title': 'This page is not on this device yet',
  'parts.not-fetched':
    'It could not be fetched: either there is no network, or the server has a newer version of the program. What was recorded is kept. Try again near the network; if that does not help, load the page again.',
  'parts.no-such-page': 'There is no such page.',
  'parts.back': 'Back',
  'parts.close': 'Close',
  'parts.try-again': 'Try again',
  'parts.leave-out': 'Leave out',
  'parts.pick': 'Choose …',
  'parts.print': 'Print',
  'parts.none': 'none',
  'parts.chip-not-trusted': 'not trusted: two numbers, {other} was read too',
  'parts.yes': 'yes',
  'parts.no': 'no',
  'parts.unknown': 'unknown',
  'parts.menu': 'Menu',
  'parts.menu-close': 'Close menu',
  'parts.places': 'Pages',

  'parts.place.today': 'Today',
  'parts.place.due': 'Due',
  'parts.place.animals': 'Animals',
  'parts.place.rounds': 'Rounds',
  'parts.place.flags': 'Flags',
  'parts.place.stock': 'Stock',
  'parts.place.sections': 'Sections',
  'parts.place.people': 'People',
  'parts.place.documents': 'Documents',
  'parts.place.import': 'Import',
  'parts.place.device': 'Device',

  'parts.people.erased': 'This person was erased; what was changed here does not bring the name back.',
  'parts.people.nameless': 'Nobody is known by name under this number. Give the name, too.',
  'parts.person.former': 'a former team member',
  'parts.person.licence-not-here': 'not on this device',

  'parts.who.title': 'Who is working?',
  'parts.who.lead': 'Everything recorded from now on carries these names. What is on the screen stays as it is.',
  'parts.who.person': 'Holding this device',
  'parts.who.partner': 'Working with',
  'parts.who.alone': 'alone',
  'parts.who.with': 'with',
  'parts.who.nobody': 'Nobody: choose who works',
  'parts.who.take-over': 'Record under these names',

  'parts.flagged': 'A flag for {who} is on the desk.',
  'parts.flagged-in-reach': 'A flag for {who} is on the desk as soon as this device is in reach.',
  'parts.will-be-flagged': 'Recorded, this is a flag for {who}: on the desk as soon as this device is in reach.',
  'parts.role.volunteer': 'volunteer',
  'parts.role.supervisor': 'supervisor',
  'parts.role.medical': 'medical team',
  'parts.role.caregiver': 'caregiver',
  'parts.role-note.volunteer': 'treats or holds on rounds',
  'parts.role-note.supervisor': 'runs the desk',
  'parts.role-note.medical': 'owns the protocol and the orders',
  'parts.role-note.caregiver': 'looks after animals between rounds',

  'parts.rank.clean-kittens': 'Clean kittens',
  'parts.rank.clean-adults': 'Clean adults',
  'parts.rank.foster': 'Foster',
  'parts.rank.intake': 'Intake',
  'parts.rank.quarantine': 'Quarantine',
  'parts.rank.isolation': 'Isolation',

  'parts.unit.g': 'grams',
  'parts.unit.kg': 'kilograms',
  'parts.unit.lb': 'pounds',

  'parts.send.all': 'all sent',
  'parts.send.unsent': '{count, plural, one {# not sent} other {# not sent}}',
  'parts.send.turned-away': '{count, plural, one {# turned away} other {# turned away}}',
  'parts.send.pictures': '{count, plural, one {# photo not sent} other {# photos not sent}}',
  'parts.send.pictures-not-taken': '{count, plural, one {# photo turned away} other {# photos turned away}}',
  'parts.send.offline': 'offline, all sent',
  'parts.send.unknown': 'not connected yet',
  'parts.send.clock': 'clock is wrong',
  'parts.send.other-shelter': 'other shelter',

  'parts.loss.title': 'This device has lost its records.',
  'parts.loss.what':
    'It held {records, plural, one {# record} other {# records}} on {at}. The browser has thrown them away. {unsent, plural, =0 {All of them had been sent and come back from the server.} one {# of them had not been sent and is lost; the rest comes back from the server. Tell the desk what it was.} other {# of them had not been sent and are lost; the rest comes back from the server. Tell the desk what they were.}}',
  'parts.loss.seen': 'Understood',
  'parts.turned-away-notice':
    '{count, plural, one {The server did not take # record. It is kept on this device; see Device.} other {The server did not take # records. They are kept on this device; see Device.}}',
  'parts.server-says': 'The server says: {fault}',
  'parts.clock-fast':
    'The clock of this device is {minutes, plural, one {# minute} other {# minutes}} fast. Set it: read windows depend on it.',
  'parts.clock-set-since':
    'The clock of this device was wrong when it was last compared, and has been set since. Whether it is right now shows when the server is reached. Until then go by another clock.',
  'parts.clock-slow':
    'The clock of this device is {minutes, plural, one {# minute} other {# minutes}} slow. Set it: read windows depend on it.',
  'parts.unread':
    '{count, plural, one {# record comes from a newer version} other {# records come from a newer version}} of Roundhand and cannot be shown. Update this device.',
  'parts.damaged':
    '{count, plural, one {# record is} other {# records are}} damaged on the server, and what {count, plural, one {it} other {they}} said is missing here. Tell the desk: the last backup has to be put in place.',
  'parts.newer-later': 'A newer version is ready. It is used after the round, when no test is running.',
  'parts.newer-now': 'A newer version is ready.',
  'parts.newer-use': 'Use it now',

  'parts.stopped.newer':
    'A newer version of this program has been opened on this device, so this page saves nothing more. Everything saved so far is safe. What you have typed still stands here: note it down, then load the newer version.',
  'parts.stopped.deleted':
    'This device was emptied in another window, so this page saves nothing more. What you have typed still stands here: note it down, then load the page again.',
  'parts.stopped.newer-at-start':
    'A newer version of this program has worked on this device. This older one would spoil its records, so it does not open them. Load the page again, with the network on.',
  'parts.stopped.not-saved-newer':
    'Not saved: a newer version of this program has taken over on this device. What you typed still stands here. Note it down, then load the newer version.',
  'parts.stopped.not-saved-deleted':
    'Not saved: this device was emptied in another window. What you typed still stands here. Note it down, then load the page again.',
  'parts.stopped.load-newer': 'Load the newer version',
  'parts.stopped.load-deleted': 'Load the page again',

  'parts.store-cannot-open': 'This device cannot open its own store, so nothing can be recorded here: {detail}',
  'parts.store-not-open': 'The store of this device is not open.',
  'parts.not-saved': 'Not saved. Nothing was recorded; try again, and write it on paper if it fails again. ({detail})',
  'parts.saved': 'Saved on this device.',
  'parts.saving': 'Saving …',
  'parts.no-shelter': 'There is no shelter on this device yet.',
  'parts.nobody-working': 'Nobody is named as working on this device. Choose who works first, at the top left.',
  'parts.turned-away': 'The server did not say why.',

  'parts.thread.opens-in': 'opens in {time}',
  'parts.thread.open': 'open, {time} left',
  'parts.thread.closed':
    '{minutes, plural, =0 {window closed} one {window closed # minute ago} other {window closed # minutes ago}}',
  'parts.barrel': 'Syringe barrel: draw to {mark} on the {scale} scale, which ends at {whole}',
  'parts.photo': 'Photo of {name}',
  'parts.no-photo': 'No photo of {name}',
  'parts.photo.not-here': 'The photo of {name} is not on this device yet',
  'parts.photo.no-room':
    'There is no room left on this device for the picture. Everything else can be recorded without it. Free some space, or take the photo on another device.',
  'parts.photo.not-held':
    'The picture could not be kept on this device. Everything else can be recorded without it. Try again. ({detail})',
  'parts.day-half': 'This day is not complete. Type day, month and year.',
  'parts.weight-label': '{label} ({unit})',
  'parts.will-record': 'This will be recorded',
  'parts.records-nothing-yet': 'Nothing yet: fill in the form.',
  'parts.and-more': '{count, plural, one {and # more} other {and # more}}',
  'parts.time': 'Time',
  'parts.time-wrong': 'Type hours and minutes, like 14:07.',
  'parts.scanned': 'Scanned {code}.',
  'parts.numbers-differ': 'They differ in {count} signs.',
  'parts.numbers-differ-at':
    'They differ in {count, plural, one {one sign: place {places}} other {# signs: places {places}}}.',
  'parts.scan-nobody': 'No animal here carries the chip {code}.',
  'parts.scan-shared':
    'Chip {code} is on the records of {animals}. It does not tell which of them this is: open the one you mean and compare its marks.',
  'parts.scan-left': 'No animal here carries the chip {code}. It is the chip of {animal}.',
  'parts.scan-recorded': 'No animal here carries the chip {code}. It stands on the record of {animal}.',
  'parts.open-animal': 'Open it',
  'parts.left-unnamed': 'an animal that is not on this device (…{id})',
  'parts.fetching': 'Fetching from the server …',
  'parts.absent':
    '{count, plural, one {# animal of this page has left and is not on this device, so what stands here is not all.} other {# animals of this page have left and are not on this device, so what stands here is not all.}}',
  'parts.absent-fetch': '{count, plural, one {Fetch it} other {Fetch them}}',
  'parts.absent-out-of-reach': 'The server cannot be reached.',
} as const satisfies Record<string, string>;
