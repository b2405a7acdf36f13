/** Texts of giving and choosing a PIN, which come with their part (for-pin.ts). */
export const pinTexts = {
  'pin.of': 'PIN of {{initials}}',
  'pin.wanted': 'This needs the PIN of {{initials}}',
  'pin.choose': '{{initials}}, choose a PIN',
  'pin.again': '{{initials}}, the same PIN once more',
  'pin.asking': 'Asking the camp computer …',
  'pin.checking': 'Checking …',
  'pin.hint.camp': '4 to 12 digits. The camp computer checks them.',
  'pin.hint.here': 'The camp computer is away: this tablet checks the PIN itself.',
  'pin.hint.choose':
    '4 to 12 digits, no run like 1234 and no repetition. It shows that it is you who writes; if you forget it, the camp computer resets it.',
  'pin.hint.nowhere':
    'The camp computer is away, and this tablet has not seen this PIN yet. Log on: nothing is lost. Plans and sign-offs wait until the PIN is checked.',
  'pin.give': 'Take over',
  'pin.next': 'Next',
  'pin.unchecked': 'Write as {{initials}}, PIN not checked',
  'pin.try': 'Try the PIN again',
  'pin.digits': 'Digits given: {{count}}',
  'pin.wrong': 'This PIN is wrong. Nobody has taken over.',
  'pin.wait_one':
    'Too many wrong PINs for {{initials}} here. Wait {{count}} second; everybody else can go on.',
  'pin.wait_other':
    'Too many wrong PINs for {{initials}} here. Wait {{count}} seconds; everybody else can go on.',
  'pin.differ': 'The two are not the same. Choose again.',
  'pin.failed': 'This tablet could not check the PIN. Try again, or load this page again.',
  'pin.weak.digits': 'A PIN is digits and nothing else.',
  'pin.weak.short': 'Too short: 4 to 12 digits.',
  'pin.weak.long': 'Too long: 4 to 12 digits.',
  'pin.weak.common':
    'This is one of those that are tried first. Choose one without a run and without the same digits again.',

  'pin.state.set': 'Has a PIN.',
  'pin.state.none': 'Has no PIN yet: it is chosen where the initials are picked.',
  'pin.state.elsewhere': 'If it is forgotten, it is reset at the camp computer.',
  'pin.state.away': 'The camp computer is away: it knows who has a PIN.',
  'pin.reset': 'Reset the PIN',
  'pin.reset.of': 'Reset the PIN of {{initials}}',
  'pin.reset.sure': 'Yes: {{initials}} chooses a new one',
  'pin.reset.not': 'Leave it',
} as const;
