// The four figures under the answer of a plan: cords, what slips through, what is rejected for nothing, and what it costs.
import type { Advice } from '../../app/advice/advise.ts'
import { amount, expected, frequency, hoursAtMost, money, whole } from '../figures.ts'
import { Fact, Facts } from '../form.tsx'
import { goodIn, slipsThrough } from './words.ts'

export function FourFigures({ advice, currency }: { advice: Advice; currency: string }) {
  const { lot, requirements, recommendation } = advice
  const { chosen } = recommendation
  const good = goodIn(advice)
  return (
    <Facts>
      <Fact name="Cords to test, at most">
        <b>{whole(chosen.testsAtMost)}</b>
        <small>
          of {whole(lot.size)}
          {advice.kind === 'priced' && `; ${expected(advice.recommendation.chosen.tests)} on average`}
          {chosen.testsAtMost > 0 &&
            `; ${hoursAtMost(chosen.testsAtMost / lot.item.groupSize)} at ${whole(lot.item.groupSize)} cords an hour`}
        </small>
      </Fact>
      <Fact name="Lots with too many that slip through">
        <b>{slipsThrough(chosen, lot.terms.catchOf100)}</b>
        <small>with {whole(lot.terms.tooMany)} nonconforming</small>
      </Fact>
      <Fact name={`Lots with only ${whole(good)} that are rejected`}>
        <b>{frequency(chosen.rejectionOfGood, chosen.acceptanceOfGood, requirements.goodRisk)}</b>
        <small>with {whole(good)} nonconforming</small>
      </Fact>
      {advice.kind === 'priced' ? (
        <ExpectedCost advice={advice} currency={currency} />
      ) : (
        <Fact name="Expected cost">
          <small>worked out from five finished lots on, or for a share that you enter below</small>
        </Fact>
      )}
    </Facts>
  )
}

function ExpectedCost({ advice, currency }: { advice: Extract<Advice, { kind: 'priced' }>; currency: string }) {
  const { total, testing, escapes, returns } = advice.recommendation.chosen.cost
  const back = advice.requirements.afterRejection === 'return' ? `, returns ${amount(returns)}` : ', screening included'
  return (
    <Fact name="Expected cost">
      <b>{money(total, currency)}</b>
      <small>
        tests {amount(testing)}, escapes {amount(escapes)}
        {back}
      </small>
    </Fact>
  )
}
