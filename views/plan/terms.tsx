// The item's terms that are frozen beside a lot's plan.
import type { LotRecord } from '../../app/lots/record/lot.ts'
import { counted } from '../figures.ts'
import { Fact, Facts } from '../form.tsx'
import { Topic } from '../frame.tsx'
import { AccuracyFact, CostsFact, policyWords, tooManyWords } from '../items/terms.tsx'

type Props = { lot: LotRecord; currency: string; open?: boolean }

export function TermsOfLot({ lot: { item, terms }, currency, open }: Props) {
  return (
    <Topic title="The item’s terms, which are frozen with the plan" open={open}>
      <Facts>
        <Fact name="Item">
          <a href={`/items/${item.id}`}>{item.name}</a>
        </Fact>
        <Fact name="Cord limit">{terms.cordLimit}</Fact>
        <Fact name="Marginal cords">{policyWords[terms.marginalPolicy].long}</Fact>
        <AccuracyFact crosstalk={terms.crosstalkAccuracy} returnLoss={terms.returnLossAccuracy} />
        <Fact name="Too many">
          {tooManyWords(terms.tooManyAsSaid)}: {counted(terms.tooMany, 'cord')} in this lot, to be caught{' '}
          {terms.catchOf100} times in 100
        </Fact>
        <CostsFact costs={terms} currency={currency} />
      </Facts>
    </Topic>
  )
}
