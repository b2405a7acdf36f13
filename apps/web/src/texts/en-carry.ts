import { carryWords } from '@firnbook/exchange/carry';

/** What files that go from device to device have to say; comes with them. */
const own = {
  'carry.title': 'From device to device by file',
  'carry.hint':
    'A stick takes what the network can’t. Bring the file in on another tablet or camp computer; twice does no harm. Anybody who finds the stick can read it.',
  'carry.writing': 'Writing the file …',
  'carry.failed': 'The file could not be written: {{what}}',
  'carry.lacks_one': 'Save what {{name}} lacks: {{count}} entry',
  'carry.lacks_other': 'Save what {{name}} lacks: {{count}} entries',
  'carry.lacks.as.of': 'told by its file, {{ago}}',

  'bring.pick': 'Bring in a file from another device',
  'bring.looking': 'Looking through {{file}} …',
  'bring.from': '{{campaign}}, from {{device}}',
  'bring.unnamed': 'a device without a name',
  'bring.written': 'Written {{at}} by its clock.',
  'bring.clock_one': 'That is {{count}} minute ahead of this tablet’s clock: one of the two is wrong.',
  'bring.clock_other': 'That is {{count}} minutes ahead of this tablet’s clock: one of the two is wrong.',
  'bring.campaign.new': 'This campaign is not on this tablet yet. It will be.',
  'bring.fresh_one': '{{count}} entry is new',
  'bring.fresh_other': '{{count}} entries are new',
  'bring.held_one': '{{count}} is here already',
  'bring.held_other': '{{count}} are here already',
  'bring.attachments_one': '{{count}} picture or table is new',
  'bring.attachments_other': '{{count}} pictures or tables are new',
  'bring.torn.no end':
    'The file is torn: it ends with line {{line}}. What is whole is taken; ask for the file again.',
  'bring.torn.changed':
    'Something in the file is not as it was written. What is whole is taken; ask for the file again.',
  'bring.refused_one': '{{count}} line is refused',
  'bring.refused_other': '{{count}} lines are refused',
  'bring.refused.line': 'Line {{line}}: {{what}}',
  'bring.refused.more_one': 'and {{count}} more',
  'bring.refused.more_other': 'and {{count}} more',
  'bring.nothing': 'Nothing in it is new.',
  'bring.take_one': 'Bring in {{count}} entry',
  'bring.take_other': 'Bring in {{count}} entries',
  'bring.take.pictures_one': 'Bring in {{count}} picture or table',
  'bring.take.pictures_other': 'Bring in {{count}} pictures or tables',
  'bring.leave': 'Leave it',
  'bring.taking_one': 'Bringing in … {{count}} entry',
  'bring.taking_other': 'Bringing in … {{count}} entries',
  'bring.failed': 'Not all of it came: {{what}} What came is kept. Bring the file in again.',
  'bring.done_one': '{{count}} entry brought in.',
  'bring.done_other': '{{count}} entries brought in.',
  'bring.done.all': '{{name}} holds everything that is on this tablet.',
  'bring.open': 'Open {{campaign}}',
  'bring.finish': 'Done',
} as const;

const problems = Object.fromEntries(
  Object.entries(carryWords).map(([key, text]) => [`carry.problem.${key}`, text]),
) as { readonly [Key in keyof typeof carryWords as `carry.problem.${Key}`]: string };

export const carryTexts = { ...own, ...problems };
