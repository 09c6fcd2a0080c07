// The closing decision on a screened lot: each cord goes by its own result.

import type { Problems, Typed } from '../../../app/kit/problems.ts'
import type { LotRecord } from '../../../app/lots/record/lot.ts'
import type { CordFacts } from '../../../app/lots/record/pick-list.ts'
import type { Consequences } from '../../../app/lots/rules/consequences.ts'
import { ClauseQuoted } from '../../contract-clause.tsx'
import { money, whole } from '../../figures.ts'
import { ChoiceField, ProblemSummary, Version } from '../../form.tsx'
import { type Frame, Page } from '../../layout.tsx'
import { Sign } from './choices.tsx'
import { TakenOut } from './taken-out-page.tsx'

type Props = Frame & {
  lot: LotRecord
  takenOut: { cords: CordFacts[]; next: number | undefined }
  returnCost: Consequences['return']
  currency: string
  problems?: Problems | undefined
  typed?: Typed | undefined
}

export function ClosingPage({ viewer, firm, done, lot, takenOut, returnCost, currency, problems, typed }: Props) {
  const { sampleNonconforming, restNonconforming } = lot.progress
  const found = sampleNonconforming + restNonconforming
  const cost = `Cost: ${money(returnCost.most, currency)} (the return).`
  return (
    <Page title={`Close lot ${lot.id}`} current="lots" viewer={viewer} firm={firm} done={done}>
      <h1>
        Close <a href={`/lots/${lot.id}`}>lot {lot.id}</a> after screening
      </h1>
      <p class="answer">
        Every cord is recorded: {whole(found)} of {whole(lot.size)} {found === 1 ? 'does' : 'do'} not conform.
      </p>
      <p class="because">
        Nothing is estimated any more; as far as the tester and the limit set were right, this is the lot. Cords that
        are missing or could not be tested count as not conforming.
      </p>
      <ClauseQuoted clause={lot.terms.clause} />
      <h2>Not conforming, to be sent back</h2>
      <TakenOut cords={takenOut.cords} next={takenOut.next} lotId={lot.id} />
      <h2>Decide and sign</h2>
      <ProblemSummary problems={problems} />
      <form method="post" action={`/lots/${lot.id}/closing`}>
        <Version value={Number(typed?.version ?? lot.version)} />
        <Choices value={typed?.outcome} problem={problems?.outcome} found={found} cost={cost} />
        <Sign problems={problems} typed={typed ?? {}} reasonHint="May stay empty" />
        <button type="submit">Sign and close this lot</button>
      </form>
    </Page>
  )
}

type ChoicesProps = { value: string | undefined; problem: string | undefined; found: number; cost: string }

function Choices({ value, problem, found, cost }: ChoicesProps) {
  return (
    <ChoiceField
      name="outcome"
      label="Your decision"
      value={value}
      problem={problem}
      options={[
        {
          value: 'sorted',
          label: 'Keep the conforming cords, send back the others',
          note: `The cords named above go back. ${found > 0 ? cost : ''}`,
        },
        { value: 'returned', label: 'Return the whole lot', note: `All that are in the house go back. ${cost}` },
      ]}
      required
    />
  )
}
