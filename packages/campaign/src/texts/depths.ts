/** What is told of solved depths: the bench verdict, what moved them, conversion between scales. */
export const depthTexts = {
  'verdict.closes':
    '{{name}} closes within {{tolerance}}: {{advance}} drilled, {{core}} of core, {{lost}} lost, {{stub}} left in the hole.',
  'verdict.closes.before':
    '{{name}} closes within {{tolerance}}: {{advance}} drilled and {{before}} left before it, {{core}} of core, {{lost}} lost, {{stub}} left in the hole.',
  'verdict.more':
    '{{name}} does not close: {{length}} more ice came up than it can hold (tolerance {{tolerance}}). Measure the lengths again and look at the counter.',
  'verdict.less':
    '{{name}} does not close: {{length}} of what was drilled is neither core nor loss nor stub (tolerance {{tolerance}}). Look for a piece that was not logged, or for lost ice.',
  'verdict.open': 'Whether {{name}} closes cannot be told: the counter or a length was not read.',
  'verdict.look': 'Look again at {{field}} of {{name}}: off by {{size}}. {{likely}}',
  'verdict.look.suggested':
    'Look again at {{field}} of {{name}}: off by {{size}}. {{likely}} It may have been {{suggested}}.',
  'verdict.measure':
    'Measure {{name}} again while it lies on the bench: that would bring the depth error from {{before}} to {{after}}.',
  'verdict.longest':
    'Longest next run {{length}}: the barrel holds {{barrel}}, and up to {{stub}} may stand in the hole.',
  'verdict.full':
    'The barrel may be full at once: it holds {{barrel}}, and up to {{stub}} may stand in the hole. Fetch that first.',
  'verdict.check.sounding':
    'A sounding by weighted tape now would bring the depth error from {{before}} to {{after}}.',
  'verdict.check.cable':
    'A cable mark check at {{at}} would bring the depth error from {{before}} to {{after}}.',
  'verdict.check.length':
    'Measuring {{name}} again would bring the depth error from {{before}} to {{after}}.',
  'verdict.check.zero': 'Measuring the zero again would bring the depth error from {{before}} to {{after}}.',
  'verdict.check.none': 'The bottom is known to {{sd}}; no check would make that much better.',

  'likely.10.cm': 'Most likely a slip of 10 cm.',
  'likely.1.m': 'Most likely a slip of 1 m.',
  'likely.swapped': 'Most likely two digits were swapped.',
  'likely.missing': 'Most likely a piece is missing in the list.',
  'likely.doubled': 'Most likely a piece stands in the list twice.',
  'likely.zero': 'Most likely the zero has changed.',
  'likely.lost': 'Most likely ice was lost and not logged.',
  'likely.run': 'Most likely it was logged under the wrong run.',
  'likely.run.suggested': 'Most likely it was logged under the wrong run: see {{run}}.',
  'likely.none': 'No usual slip explains it.',

  'moved.down': '{{name}} moved {{length}} down because {{cause}}.',
  'moved.up': '{{name}} moved {{length}} up because {{cause}}.',
  'moved.down.several': '{{name}} moved {{length}} down: {{causes}}.',
  'moved.up.several': '{{name}} moved {{length}} up: {{causes}}.',
  'moved.not': '{{name}} did not move.',
  'moved.share.down': '{{length}} down because {{cause}}',
  'moved.share.up': '{{length}} up because {{cause}}',
  'moved.rest': 'the rest because of smaller changes',
  'cause.corrected': 'the {{field}} of {{name}} was corrected from {{before}} to {{after}}',
  'cause.given': 'the {{field}} of {{name}} was given as {{after}}',
  'cause.taken': 'the {{field}} of {{name}}, {{before}}, was taken out',
  'cause.changed': 'the {{field}} of {{name}} was changed',
  'cause.added': '{{name}} was added',
  'cause.added.run_one': '{{name}} was added with {{count}} piece',
  'cause.added.run_other': '{{name}} was added with {{count}} pieces',
  'cause.removed': '{{name}} was taken out',
  'cause.order': '{{kinds}} were put into another order',
  'cause.setting': '{{setting}} was changed',
  'cause.assumption': '{{assumption}} was taken as {{after}} instead of {{before}}',
  'cause.solver': 'it was solved by {{after}} instead of {{before}}',

  'counted.twice': 'Both {{things}} {{name}} count in depths and totals until this is settled.',
  'counted.several': 'All {{count}} {{things}} {{name}} count in depths and totals until this is settled.',

  'converted.ice': '{{from}} on the scale "{{scale}}" is {{to}} on "{{other}}", in {{piece}}.',
  'converted.break':
    '{{from}} on the scale "{{scale}}" is the break between {{above}} and {{below}}: {{top}} to {{bottom}} on "{{other}}".',
  'converted.lost':
    '{{from}} on the scale "{{scale}}" is {{to}} on "{{other}}", in lost ice between {{above}} and {{below}} ({{top}} to {{bottom}}).',
  'converted.above': '{{from}} on the scale "{{scale}}" is {{to}} on "{{other}}", above the core.',
  'converted.below': '{{from}} on the scale "{{scale}}" is {{to}} on "{{other}}", below the core.',
} as const;
