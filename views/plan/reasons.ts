// The recommendation in a first line and two sentences, and what would change it.
import type { Advice } from '../../app/advice/advise.ts'
import type { AssessedAlternative } from '../../app/advice/evaluate.ts'
import type { Edge } from '../../app/advice/sensitivity.ts'
import { frequency, money, percent, whole } from '../figures.ts'
import { wayWords } from '../words/plans.ts'
import { riskAllowed, wayNameOf } from './words.ts'

type Priced = Extract<Advice, { kind: 'priced' }>

/** What to do, in one line. */
export function answerIn({ lot, recommendation: { chosen } }: Advice): string {
  const size = whole(lot.size)
  const [first, ...later] = chosen.plan.stages
  if (!first) return `Accept the ${size} cords without a test.`
  if (chosen.kind === 'every-cord')
    return `Test every one of the ${size} cords: keep those that conform, send the others back.`
  const { testsAtMost } = chosen
  if (later.length > 0)
    return `Test up to ${whole(testsAtMost)} of the ${size} cords: ${wayNameOf(chosen).toLowerCase()}.`
  const allows = first.acceptanceNumber === 0 ? 'none' : `at most ${whole(first.acceptanceNumber)}`
  return `Test ${whole(first.sampleSize)} of the ${size} cords. The plan allows ${allows}.`
}

/** What the way does, and why not another. */
export function reasonsIn(advice: Advice, currency: string): string[] {
  const why = advice.kind === 'priced' ? whySentence(advice, currency) : byProtectionIn(advice)
  // what protects as the item asks is told by the figures below
  const { chosen } = advice.recommendation
  return chosen.protects && chosen.kind !== 'every-cord' ? [why] : [protectionIn(chosen, advice), why]
}

function protectionIn({ kind, plan, acceptance, rejection }: AssessedAlternative, { lot }: Advice): string {
  if (kind === 'every-cord') return 'Testing every cord lets none through, as far as the tester is right.'
  if (plan.stages.length === 0) return 'Without a test every such lot goes through.'
  return `It lets ${frequency(acceptance, rejection, riskAllowed(lot.terms.catchOf100))} lots with ${whole(lot.terms.tooMany)} nonconforming cords through, where the item asks to catch ${lot.terms.catchOf100} of 100.`
}

function byProtectionIn({ recommendation: { because }, lot }: Extract<Advice, { kind: 'protection' }>): string {
  if (because === 'resubmitted') return resubmittedIn(lot)
  return because === 'critical'
    ? 'The item is marked critical, and a critical item is always tested whole.'
    : 'No other way that protects as the item demands tests fewer cords at most.'
}

function resubmittedIn({ links }: Advice['lot']): string {
  return `The item names a limit of the published standard, and lot ${links.former?.lotId} that went back is inspected again by the standard’s plan for tightened inspection.`
}

function whySentence({ recommendation, lot }: Priced, currency: string): string {
  const { because, cheapest, chosen, priceOfProtection } = recommendation
  const dearer = money(priceOfProtection, currency)
  const other = wayWords[cheapest.kind].toLowerCase()
  switch (because) {
    case 'critical':
      return priceOfProtection > 0
        ? `The item is marked critical, and a critical item is always tested whole; the cheapest way (${other}) would save ${dearer} a lot on average and is not offered.`
        : 'The item is marked critical, and a critical item is always tested whole; here it is the cheapest way too.'
    case 'resubmitted':
      return resubmittedIn(lot)
    case 'protection':
      return `The cheapest way (${other}) costs ${dearer} less but lets ${frequency(cheapest.acceptance, cheapest.rejection, riskAllowed(lot.terms.catchOf100))} through: that is the price of the protection.`
    case 'cost':
      return `No other way that protects as you demand costs less${chosen.kind === 'every-cord' ? '' : ', testing every cord included'}.`
  }
}

/** What would change the advice. */
export function turningIn({ sensitivity, recommendation, prior, lot }: Priced, currency: string): string[] {
  const { breakEven, holds } = sensitivity
  const { chosen, because } = recommendation
  const sentences: string[] = []
  if (because === 'critical')
    sentences.push('Nothing on this page: only taking the mark “critical” off the item would.')
  else if (because === 'resubmitted')
    sentences.push('Nothing on this page: the contract decides how a lot that went back is inspected again.')
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

function rangeSentence({ from, to }: { from: Edge; to: Edge }, chosen: AssessedAlternative): string {
  const below = from.other && `below an average of ${percent(from.at)} “${wayWords[from.other].toLowerCase()}” is`
  const above = to.other && `above ${percent(to.at)} “${wayWords[to.other].toLowerCase()}” is`
  const others = [below, above].filter((part) => part !== undefined)
  const way = wayWords[chosen.kind].toLowerCase()
  if (others.length === 0) return `No other average of this supplier: “${way}” stays the cheapest way that protects.`
  return `Another average: ${others.join(', ')} the cheapest way that protects.`
}
