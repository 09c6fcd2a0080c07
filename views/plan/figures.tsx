// The four figures under the answer of a plan: cords, what slips through, what is rejected for nothing, and what it costs.
import type { Advice } from '../../app/advice/advise.ts'
import { amount, expected, frequency, hoursAtMost, money, whole } from '../figures.ts'
import { Tile, Tiles } from '../frame.tsx'
import { goodIn, slipsThrough } from './words.ts'

export function FourFigures({ advice, currency }: { advice: Advice; currency: string }) {
  const { lot, requirements, recommendation } = advice
  const { chosen } = recommendation
  const good = goodIn(advice)
  return (
    <Tiles>
      <Tile name="Cords to test, at most" note={effortIn(advice)}>
        {whole(chosen.testsAtMost)}
      </Tile>
      <Tile name="Lots with too many that slip through" note={`with ${whole(lot.terms.tooMany)} nonconforming`}>
        {slipsThrough(chosen, lot.terms.catchOf100)}
      </Tile>
      <Tile name={`Lots with only ${whole(good)} that are rejected`}>
        {frequency(chosen.rejectionOfGood, chosen.acceptanceOfGood, requirements.goodRisk)}
      </Tile>
      {advice.kind === 'priced' ? (
        <ExpectedCost advice={advice} currency={currency} />
      ) : (
        <Tile name="Expected cost" note="from five finished lots on, or for a share that you enter">
          –
        </Tile>
      )}
    </Tiles>
  )
}

/** How many of the lot, how many on average, and how long that takes at most. */
function effortIn(advice: Advice): string {
  const { lot, recommendation } = advice
  const { testsAtMost } = recommendation.chosen
  const average = advice.kind === 'priced' ? `; ${expected(advice.recommendation.chosen.tests)} on average` : ''
  const rate = lot.item.groupSize
  const hours = testsAtMost > 0 ? `; ${hoursAtMost(testsAtMost / rate)} at ${whole(rate)} an hour` : ''
  return `of ${whole(lot.size)}${average}${hours}`
}

function ExpectedCost({ advice, currency }: { advice: Extract<Advice, { kind: 'priced' }>; currency: string }) {
  const { total, testing, escapes, returns } = advice.recommendation.chosen.cost
  const back = advice.requirements.afterRejection === 'return' ? `, returns ${amount(returns)}` : ', screening included'
  return (
    <Tile name="Expected cost" note={`tests ${amount(testing)}, escapes ${amount(escapes)}${back}`}>
      {money(total, currency)}
    </Tile>
  )
}
