/** Texts of pairing and of the list of devices, which come with their screens (for-pair.ts). */
export const pairTexts = {
  'pair.title': 'Pair this device',
  'pair.asking': 'Asking the camp computer …',
  'pair.away':
    'The camp computer does not answer. Be on the camp network; if this device’s clock is wrong, set it, and look again.',
  'pair.plain':
    'This address is plain http: nothing can be paired here. Open the https address that the camp computer shows.',
  'pair.private':
    'This browser keeps no pages for later. Leave the private window, or use another browser, and look again.',
  'pair.certificate':
    'This device has not taken the camp’s certificate, so the camp computer could be anybody. Nothing was sent. Install the certificate (the first code on the camp computer; on an iPad also turn on full trust), close this page, and scan again. Do not go on past a warning.',
  'pair.here': 'This is the camp computer itself; it needs no pairing.',
  'pair.to.devices': 'To the list of devices',
  'pair.look.again': 'Look again',
  'pair.name': 'Name of this device',
  'pair.name.hint': 'What is written on its back: the camp computer lists it under this name.',
  'pair.code': 'Code on the camp computer’s screen',
  'pair.code.hint': 'Ten letters and figures. It is good for ten minutes, and once.',
  'pair.fingerprint': 'Fingerprint of the camp’s certificate, as the camp computer shows it:',
  'pair.do': 'Pair this device',
  'pair.paired': 'Paired: the camp computer lists this device as {{name}}.',
  'pair.keeping': 'These screens are being kept on this device. Leave this page open until they are.',
  'pair.kept': 'These screens are kept on this device: they start while the camp computer is off.',
  'pair.promised': 'This browser has promised to keep the record when the disk runs short.',
  'pair.to.campaigns': 'To the campaigns',

  'devices.title': 'Devices',
  'devices.hint':
    'Tablets and phones come in over the camp network once they are paired here. Each needs the camp’s certificate first.',
  'devices.hint.elsewhere': 'Devices are paired and revoked at the camp computer itself.',
  'devices.away':
    'The list of devices did not come: the camp computer does not answer, or does not let this device in.',
  'devices.pair': 'Pair a device',
  'devices.pair.next': 'Another code',
  'devices.paired': '{{name}} is paired.',
  'devices.list': 'Paired devices',
  'devices.none': 'No device is paired yet.',
  'devices.seen': 'last here {{seen}}, paired {{paired}}',
  'devices.revoked': 'revoked {{at}}: it is not let in; its entries stay in the book',
  'devices.no.key': 'It has shown no key: which entries it signed can not be told.',
  'devices.wrote_one': '{{campaign}}: {{count}} entry signed by it.',
  'devices.wrote_other': '{{campaign}}: {{count}} entries signed by it.',
  'devices.wrote.came_one': '{{count}} came after it was revoked.',
  'devices.wrote.came_other': '{{count}} came after it was revoked.',
  'devices.wrote.made_one': '{{count}} of them was made after that, by its clock.',
  'devices.wrote.made_other': '{{count}} of them were made after that, by its clock.',
  'devices.other.key':
    'It has shown another key since, first {{at}}. Its browser may have lost its storage, or somebody else uses what it was paired with. Ask who has it; then revoke it here and pair it again.',
  'devices.revoke': 'Revoke',
  'devices.revoke.one': 'Revoke {{name}}',
  'devices.revoke.sure':
    'Let {{name}} in no more? What it wrote stays in the book; what it has not sent stays on it.',
  'devices.revoke.yes': 'Yes, revoke it',
  'devices.revoke.no': 'No, keep it',
  'devices.step.install': '1. Once on each device: the camp’s certificate',
  'devices.step.install.hint':
    'The page behind this code says how, for Android and iPad. Compare the fingerprint there with this one:',
  'devices.step.pair': '2. Pair this one device',
  'devices.step.pair.qr': 'Code that pairs one device',
  'devices.step.pair.until': 'Good until {{until}}, and once.',
  'devices.step.pair.type': 'Without a camera: open {{address}} and type',
} as const;
