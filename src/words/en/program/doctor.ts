/** What the program says of the computer it runs on, and what to do about it. */
export const doctor = {
  'cli.doctor.what':
    'look at computer, records, keys and copies, and say what is wrong and what to do; changes nothing',
  'cli.doctor.option-copies': 'the folder that copies go to (start --copies)',
  'cli.doctor.option-port': 'the port of the server; 8600 when left out',
  'cli.doctor.well': '✓ {what}',
  'cli.doctor.attention': '△ {what}',
  'cli.doctor.wrong': '■ {what}',
  'cli.doctor.all-well':
    '{attention, plural, =0 {Nothing is wrong.} one {Nothing is wrong; one thing is to be seen to (△).} other {Nothing is wrong; # things are to be seen to (△).}}',
  'cli.doctor.some-wrong':
    '{count, plural, one {One thing is} other {# things are}} wrong. Begin with the first; what comes after may follow from it.',

  'cli.doctor.node': 'Node {running} runs the program.',
  'cli.doctor.node-old': 'Node {running} is too old: the program needs {least} or newer. Install it and start again.',
  'cli.doctor.app': 'The app for phones and desk is built.',
  'cli.doctor.app-missing':
    'The app for phones and desk is not built: run “npm run build” in the folder of the program.',

  'cli.doctor.no-records':
    'There are no records in {folder}. If there should be some, give the right folder with --data; else begin with “start”.',
  'cli.doctor.disk': 'The disk of {folder} has {gigabytes} gigabytes free.',
  'cli.doctor.disk-tight':
    'The disk of {folder} has only {megabytes} megabytes free. Make room before a round: when it is full nothing more is kept.',
  'cli.doctor.disk-full':
    'The disk of {folder} is full ({megabytes} megabytes free): nothing more can be kept. Phones hold what they record until there is room. Make room now.',
  'cli.doctor.not-writable':
    'Nothing can be written into {folder}{full, select, yes {: its disk is full. Make room.} other {. Let the account that runs the server write there, or put the records on a disk that takes them.}}',
  'cli.doctor.rights': 'Only you can look into {folder}.',
  'cli.doctor.rights-wide':
    'Other accounts of this computer can look into {folder} (rights {mode}). Records name people: take those rights away (chmod 700).',
  'cli.doctor.records':
    '{records, plural, =0 {There are no records yet} one {# record opens} other {# records open}}, and the file is in order.',
  'cli.doctor.file-damaged':
    'The file of the records is damaged: {detail}. Stop the server, put the newest copy back with “restore” into a new folder, and start there: devices send again what the copy had not seen. Without a copy: “salvage”.',
  'cli.doctor.unreadable':
    '{count, plural, one {One record cannot} other {# records cannot}} be read. “verify” says which; what depends on {count, plural, one {it} other {them}} is missing everywhere.',
  'cli.doctor.no-shelter': 'No shelter has been set up in these records yet: start the server and open its page.',
  'cli.doctor.documents': 'A signed protocol and a signed formulary are in force.',
  'cli.doctor.people': 'The file of names and contacts is in order.',
  'cli.doctor.certificate':
    'The certificate for phones is good for {days, plural, one {# more day} other {# more days}}.',
  'cli.doctor.certificate-over':
    'The certificate for phones is {days, plural, one {good for # more day only} other {good for # more days only}}. The server renews it when it runs: start it with --lan. If it runs and this stays, it cannot write to the folder of its keys.',
  'cli.doctor.certificate-ended':
    'The certificate for phones is over: phones do not open the app. Start the server with --lan, which makes a new one.',

  'cli.doctor.no-copies':
    'No place for copies was named, and so none was looked at. Without a copy in a second place all is lost with this computer: start with --copies and the folder of another disk, and name it here too.',
  'cli.doctor.copies-none':
    'There is no copy in {folder}. Start the server with --copies {folder}, or make one now with “copy --out {folder}”.',
  'cli.doctor.copy': 'The newest copy is of {at_day}, {at_time}.',
  'cli.doctor.copy-old':
    'The newest copy is of {at_day}, {at_time}, {days, plural, one {# day} other {# days}} ago. The server makes them only while it runs with --copies; make one now with “copy”.',

  'cli.doctor.server': 'The server answers at port {port}, version {version}, and has nothing to say against itself.',
  'cli.doctor.server-tells': 'The server at port {port} says: {faults}',
  'cli.doctor.port-free': 'No server runs at port {port}; the port is free.',
  'cli.doctor.port-other': 'Something else answers at port {port}. Stop it, or start the server with another --port.',
} as const satisfies Record<string, string>;
