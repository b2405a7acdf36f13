/** Texts of who may do what, which come with their screen (for-people.ts). */
export const peopleTexts = {
  'people.title': 'People and their rights',
  'people.hint':
    'Whatever is written without a right is kept and counts, and is shown until somebody looks at it.',
  'people.who': 'Who may do what',
  'people.everybody': 'Everybody may do everything',
  'people.everybody.hint': 'Nobody has to ask. The usual way of a small crew.',
  'people.by.name': 'By name',
  'people.by.name.hint':
    'Everybody goes on logging. Who changes plans and who signs off is said for each person. Whoever switches this on keeps all three rights.',
  'people.pin': 'PIN',
  'people.pin.asked': 'Ask for a PIN',
  'people.pin.asked.hint':
    'Whoever takes a tablet over gives their PIN. Without it they log; plans and signing off wait.',
  'people.pin.not.asked': 'No PIN',
  'people.pin.not.asked.hint': 'Initials are enough.',
  'people.ask.them': 'You have no right to change this. These have it: {{people}}.',
  'people.nothing.to.give': 'While everybody may do everything, there is nothing to give or to take.',
  'people.list_one': '{{count}} person',
  'people.list_other': '{{count}} people',
  'people.log': 'Log',
  'people.plan': 'Change a plan',
  'people.signOff': 'Sign off',
  'people.log.hint': 'runs, pieces, checks, weather',
  'people.plan.hint': 'holes, zeros, splices, depth settings, site',
  'people.signOff.hint': 'depth versions, and who may do what',
  'people.may': 'may',
  'people.may.not': 'may not',
  'people.right.of': '{{initials}}: {{right}}',
  'people.me': 'you',
  'people.at.work': 'at work: {{as}}',
  'people.reason': 'changed among the people',
  'people.new': 'New initials are added where they are picked, at the top of every screen.',

  'used.hint':
    'What was written is kept and counts. Somebody with the right to sign off says whether it stays so: {{people}}.',
  'used.hint.given':
    'Until somebody with the right to sign off lets it stand, it gives nobody a right: {{people}}.',
  'used.what': 'Written so',
  'used.more_one': 'and {{count}} more',
  'used.more_other': 'and {{count}} more',
  'used.stands.all_one': 'Let it stand',
  'used.stands.all_other': 'Let all {{count}} stand',
  'used.withdraw': 'Withdraw {{name}}',
  'used.withdraw.reason': 'written without the right to it',
  'used.people': 'To people and their rights',
} as const;
