// Sentences of refusals and findings that depend on their facts: singular and plural, seconds and minutes, the item's own rule.
import { expect, test } from 'vitest'
import { because } from '../../app/kit/refusal.ts'
import { findingSentence } from '../../views/words/findings.ts'
import { sentenceOf } from '../../views/words/refusals.ts'

// English grammar; whole minutes are rounded up, so that nobody comes too early.
test.each([
  [1, 'try again in 1 second'],
  [2, 'try again in 2 seconds'],
  [119, 'try again in 119 seconds'],
  [120, 'try again in 2 minutes'],
  [121, 'try again in 3 minutes'],
])('a wait of %i seconds', (seconds, says) => {
  expect(sentenceOf(because('password/too-many-wrong', { seconds }))).toBe(`Too many wrong passwords: ${says}`)
})

test.each([
  [['Cyrillic', 'Latin'], 'Cyrillic and Latin'],
  [['Greek', 'Cyrillic', 'Latin'], 'Greek, Cyrillic and Latin'],
])('letters of %j', (scripts, says) => {
  expect(sentenceOf(because('name/mixed-scripts', { scripts }))).toContain(`letters of ${says}, some`)
})

test.each([
  [0, 'not known: a, b'],
  [3, 'not known: a, b and 3 more'],
])('a heading with %i further columns', (more, says) => {
  expect(sentenceOf(because('heading/unknown', { columns: ['a', 'b'], more }))).toMatch(new RegExp(`${says}$`))
})

// The item's rule is the buyer's: strict counts a marginal cord as one that does not conform, lenient as one that does.
test.each([
  ['strict', 'does not conform'],
  ['lenient', 'conforms'],
] as const)('a marginal cord under the %s rule', (rule, says) => {
  const finding = { kind: 'within-accuracy', parameter: 'return-loss', margin: '0.70', accuracy: '1.5', rule } as const
  expect(findingSentence(finding)).toBe(
    `Return loss is 0.70 dB above the limit, within the tester’s ±1.5 dB: marginal, which this item counts as a cord that ${says}.`,
  )
})

test('a lot is refused in the words of a sentence, not of its page', () => {
  const facts = { lot: 17, state: 'conceded', act: 'amend' } as const
  expect(sentenceOf(because('lot/state', facts))).toBe('Lot 17 is accepted under concession and cannot be corrected')
})
