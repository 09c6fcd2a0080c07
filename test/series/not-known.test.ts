// A series with lots without a verdict, against every way in which those lots may have gone, each followed by rules written here a second time.
import { expect, test } from 'vitest'
import { switchingAfter } from '../../app/series/switching.ts'
import { inspectedLot, normalPlan } from '../support/inspected-lot.ts'
import { randomFrom } from '../support/random.ts'

/** `a` accepted, `r` not accepted, `?` without a verdict. */
type Lots = string

/**
 * The severity after these lots, without reduced inspection. MIL-STD-105E (1989), 4.7.1, 4.7.2 and 4.8, read: two of five or
 * fewer lots in a row not accepted; five in a row accepted; five not accepted under tightened inspection.
 */
function severityAfter(lots: Lots): string {
  let severity = 'normal'
  let spell = ''
  for (const lot of lots) {
    if (severity === 'discontinued') continue
    spell += lot
    const before = severity
    if (severity === 'normal' && lot === 'r' && spell.slice(-5).split('r').length > 2) severity = 'tightened'
    else if (severity === 'tightened' && spell.endsWith('aaaaa')) severity = 'normal'
    else if (severity === 'tightened' && spell.split('r').length > 5) severity = 'discontinued'
    if (severity !== before) spell = ''
  }
  return severity
}

/** Everything that the lots may have been. */
function courses(lots: Lots): Lots[] {
  return lots.includes('?') ? ['a', 'r'].flatMap((each) => courses(lots.replace('?', each))) : [lots]
}

/** Every text of `a` and `r` up to this length. */
function continuations(length: number): Lots[] {
  if (length === 0) return ['']
  const shorter = continuations(length - 1)
  return ['', ...shorter.flatMap((each) => [`a${each}`, `r${each}`])]
}

/** Twelve lots to come tell any two states apart: five accepted in a row, five more, and two not accepted. */
const ahead = [...new Set([...continuations(7), 'aaaaarr', 'aaaaaarr', 'rrrrr', 'rrrr'])]

const facts = (lots: Lots) =>
  [...lots].map((lot, at) =>
    inspectedLot(at + 1, lot === 'r' ? 2 : 0, {
      picks: [{ sampleSize: normalPlan.sampleSize, recorded: lot === '?' ? 17 : 50, found: lot === 'r' ? 2 : 0 }],
    }),
  )

const random = randomFrom(20_310_112)
const some = Array.from({ length: 120 }, () =>
  Array.from({ length: 1 + Math.floor(random() * 16) }, () => 'aaaar?'[Math.floor(random() * 6)]).join(''),
)

test.each([
  '?',
  'r?',
  'r?aaaa',
  '?aaaa',
  'rr?aaaaa',
  'rrr?rr?',
  '?r',
  'rarr?rrr',
  ...some.filter((each) => each.includes('?')),
])('%s', (lots) => {
  const all = courses(lots)
  const severities = new Set(all.map(severityAfter))
  const settled = ahead.every((more) => new Set(all.map((each) => severityAfter(each + more))).size === 1)
  const { inspection, possible, state } = switchingAfter(facts(lots), [], {
    acceptanceQualityLimit: '1.0',
    level: 'II',
  })
  const strictest = ['discontinued', 'tightened', 'normal'].find((each) => severities.has(each))
  expect(new Set(possible)).toEqual(severities)
  expect(state.inspection).toBe(strictest)
  expect(inspection).toBe(settled ? strictest : 'not-known')
})
