/** Who may do what: what is refused, what was written without the right to it. */
export const peopleTexts = {
  'right.log': 'log',
  'right.plan': 'change a plan',
  'right.signOff': 'sign off',

  'refuse.right': '{{person}} has no right to {{right}} here.',
  'mend.right': 'These have it: {{people}}. Hand over to one of them, or ask one of them for the right.',
  'refuse.unproven': 'The PIN of {{person}} could not be checked on this device.',
  'mend.unproven':
    'Type it while the camp computer can be reached. Logging goes on without it; only plans and signing off wait.',
  'refuse.last': '{{person}} is the last one with the right to sign off.',
  'mend.last': 'Give the right to somebody else first, or let everybody do everything.',

  'right.was.taken': '{{by}} had taken the right to {{right}} away on {{day}}',
  'right.by.name': 'rights are by name since {{day}}, and the right to {{right}} was not given',

  'conflict.right.logged_one': '{{person}} wrote {{count}} entry, on {{day}}: {{since}}.',
  'conflict.right.logged_other': '{{person}} wrote {{count}} entries, the last on {{day}}: {{since}}.',
  'conflict.right.planned': '{{person}} changed {{name}} on {{day}}: {{since}}.',
  'conflict.right.signed': '{{person}} signed off {{name}} on {{day}}: {{since}}.',
  'conflict.right.changed': '{{person}} changed {{name}}, which is signed off, on {{day}}: {{since}}.',
  'conflict.right.settled':
    '{{person}} let stand on {{day}} what {{name}} had written without the right to it: {{since}}. It settles nothing.',
  'conflict.right.given':
    '{{person}} changed who may do what ({{name}}) on {{day}}: {{since}}. It gives nothing until it is let stand.',
} as const;
