/** Texts of sticks at the camp computer itself, which come with their parts (for-sticks.ts). */
export const stickTexts = {
  'sticks.title': 'A stick is in the computer that is not named yet',
  'sticks.about': '{{label}}: {{bytes}}, of which {{free}} are free',
  'sticks.open': 'Let copies be made on it',
  'sticks.keeps':
    'Nothing that lies on it is changed or deleted. A small file with its name goes onto it, then a folder for each campaign, and so again whenever it is in. Whoever has the stick can read them.',
  'sticks.name': 'Name of this stick',
  'sticks.name.hint': 'One word, and write it on the stick: red, blue.',
  'sticks.known':
    'Another book called it {{name}}, and it keeps that name. What that book copied to it stays.',
  'sticks.test': 'Test first: write into its free room, read it back, take it away again',
  'sticks.test.short': '256 MB: about a minute',
  'sticks.test.all':
    'All of its free room: finds a stick that names more room than it has; can take hours, and can be stopped',
  'sticks.test.none': 'No test: it was tested before',
  'sticks.network': 'Copy the camp network too',
  'sticks.network.hint':
    'The key of the camp’s certificate, the list of paired devices, and the crew’s PINs: with them another computer takes the place of a broken one, and no tablet is paired again. Whoever finds the stick could pose as the camp computer to your tablets, on a network where both are, and as no other site; and they could try out short PINs. Keep it as you keep a key.',
  'sticks.do': 'Name this stick',
  'sticks.use': 'Use stick {{name}}',
  'sticks.protected': 'It is write-protected. Look for a switch on it, or take another one.',
  'sticks.starting': 'Stick {{name}}: the test begins …',
  'sticks.writing': 'Stick {{name}}: {{done}} of {{of}} written',
  'sticks.reading': 'Stick {{name}}: {{done}} of {{of}} read back',
  'sticks.leave': 'Leave it in. You may leave this page: the test goes on.',
  'sticks.stop': 'Stop the test',
  'sticks.stop.hint': 'It stays without a name then, and what the test wrote is taken away.',
  'sticks.named': 'Stick {{name}} is named, and copied to by itself from now on.',
  'sticks.named.tested':
    'Stick {{name}} is named: {{tested}} were written and came back. It is copied to by itself from now on.',
  'sticks.stopped': 'The test was stopped. {{label}} has no name, and is as it was.',
  'sticks.failed': '{{label}} was not named. {{what}}. {{mend}}',
  'sticks.network.recover': 'Bring the camp network back',
  'sticks.network.one_one': '{{host}}, stick {{stick}}: {{count}} paired device, copied {{ago}}',
  'sticks.network.one_other': '{{host}}, stick {{stick}}: {{count}} paired devices, copied {{ago}}',
  'sticks.network.unnamed': 'Camp network',
  'sticks.network.recovered':
    'The camp network is back: tablets know this computer, and need not be paired again. Look at Devices, and revoke who was revoked since that copy. If this computer’s network has another name than the old one’s, say it in a terminal: firnbook network.',
  'sticks.network.harmed': 'Stick {{stick}}: {{what}}. {{mend}}',
} as const;
