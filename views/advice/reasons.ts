// The advice in a first line and three sentences, and what would change it.
import type { Advice } from '../../app/advice/advise.ts'
import type { EvaluatedAlternative } from '../../app/advice/evaluate.ts'
import { expected, frequency, money, percent, whole } from '../figures.ts'
import { wayWords } from '../words/plans.ts'
import { meanIn, riskAllowed } from './words.ts'

/** What to do, in one line. */
export function answerIn({ lot, recommendation: { chosen } }: Advice): string {
  const size = whole(lot.size)
  const [first, ...later] = chosen.plan.stages
  if (!first) return `Accept the ${size} cords without a test.`
  if (chosen.kind === 'every-cord')
    return `Test every one of the ${size} cords: keep those that conform, send the others back.`
  const allowed =
    first.acceptanceNumber === 0 ? 'only if none fails' : `if at most ${whole(first.acceptanceNumber)} fail`
  if (later.length > 0)
    return `Test up to ${whole(chosen.testsAtMost)} of the ${size} cords, ${wayWords[chosen.kind].toLowerCase()}.`
  return `Test ${whole(first.sampleSize)} of the ${size} cords and accept ${allowed}.`
}

/** Three sentences: what is to be expected of the lot, what the way does, and why not another. */
export function reasonsIn(advice: Advice, currency: string): string[] {
  const { prior, lot, recommendation } = advice
  const { chosen } = recommendation
  return [
    `From this supplier ${meanIn(prior)} cords are expected not to conform; ${whole(lot.terms.tooMany)} of the ${whole(lot.size)} are too many, and you want ${lot.terms.catchOf100} of 100 such lots caught.`,
    doingSentence(chosen, advice, currency),
    whySentence(advice, currency),
  ]
}

function doingSentence(chosen: EvaluatedAlternative, { lot }: Advice, currency: string): string {
  const cost = `costs ${money(chosen.cost.total, currency)} a lot on average`
  if (chosen.kind === 'every-cord')
    return `Testing every cord lets none through, as far as the tester is right, and ${cost}.`
  if (chosen.plan.stages.length === 0)
    return `Without a test every such lot goes through, and it ${cost} in cords that escape.`
  return `This lets ${frequency(chosen.acceptance, chosen.rejection, riskAllowed(lot.terms.catchOf100))} lots with ${whole(lot.terms.tooMany)} through, needs ${expected(chosen.tests)} tests on average and ${cost}.`
}

function whySentence({ recommendation, lot }: Advice, currency: string): string {
  const { because, cheapest, chosen, priceOfProtection } = recommendation
  const dearer = money(priceOfProtection, currency)
  const other = wayWords[cheapest.kind].toLowerCase()
  switch (because) {
    case 'critical':
      return priceOfProtection > 0
        ? `The item is marked critical, and a critical item is always tested whole; the cheapest way (${other}) would save ${dearer} a lot on average and is not offered.`
        : 'The item is marked critical, and a critical item is always tested whole; here it is the cheapest way too.'
    case 'protection':
      return `The cheapest way (${other}) costs ${dearer} less on average but lets ${frequency(cheapest.acceptance, cheapest.rejection, riskAllowed(lot.terms.catchOf100))} such lots through, so the protection that you demand decides, and that is its price.`
    case 'cost':
      return `No other way that protects as you demand costs less${chosen.kind === 'every-cord' ? '' : ', testing every cord included'}.`
  }
}

/** What would change the advice. */
export function turningIn({ sensitivity, recommendation, prior, lot }: Advice, currency: string): string[] {
  const { breakEven, holds } = sensitivity
  const { chosen, because } = recommendation
  const sentences: string[] = []
  if (because === 'critical')
    sentences.push('Nothing on this page: only taking the mark “critical” off the item would.')
  else if (holds) sentences.push(rangeSentence(holds, chosen))
  if (breakEven !== undefined)
    sentences.push(
      breakEven >= 1
        ? 'A test costs as much as an escaped cord or more: on cost alone no test ever pays.'
        : `On cost alone, testing a cord is worth it from a break-even of ${percent(breakEven)} (${frequency(breakEven)}) nonconforming: a test costs ${money(lot.terms.costTestCents, currency)}, an escape ${money(lot.terms.costEscapeCents, currency)}.`,
    )
  const mean = prior.a / (prior.a + prior.b)
  sentences.push(
    `At ${percent(mean)} nonconforming, testing every cord pays for itself once an escaped cord costs more than ${money(Math.ceil(lot.terms.costTestCents / mean), currency)}.`,
  )
  return sentences
}

function rangeSentence({ from, to }: { from: number; to: number }, chosen: EvaluatedAlternative): string {
  const way = wayWords[chosen.kind].toLowerCase()
  if (from === 0 && to === 1)
    return `No other average of this supplier would change the advice: “${way}” stays the cheapest that protects.`
  if (from === 0)
    return `An average above ${percent(to)} would: up to there “${way}” is the cheapest way that protects.`
  if (to === 1)
    return `An average below ${percent(from)} would: from there on “${way}” is the cheapest way that protects.`
  return `An average below ${percent(from)} or above ${percent(to)} would: between them “${way}” is the cheapest way that protects.`
}
