// The manager's page: what the plan says, what is proven, what may still be in the lot, and four choices with what follows.

import type { SupplierSummary } from '../../../app/history/summary.ts'
import type { LotRecord } from '../../../app/lots/record/lot.ts'
import { ClauseQuoted } from '../../contract-clause.tsx'
import { counted, whole } from '../../figures.ts'
import { ProblemSummary, Version } from '../../form.tsx'
import { type Frame, Page } from '../../layout.tsx'
import { lotsInWords } from '../../suppliers/between-lots.tsx'
import { openAfterVerdict, stopCosts } from '../first-fetch.tsx'
import { formerWords } from '../former.tsx'
import { BothAnswersFacts, NotHadList } from '../not-had.tsx'
import { Proven, verdictSentence } from '../proven.tsx'
import { ConcessionFields, DecisionChoices, Sign } from './choices.tsx'
import { MarginFigure } from './margins.tsx'
import type { DecisionProps } from './props.ts'
import { TakenOut } from './taken-out-page.tsx'

export function DecisionPage({ viewer, firm, done, ...props }: Frame & DecisionProps) {
  const { lot, margins, standing, takenOut, problems, typed } = props
  const open = openAfterVerdict(lot)
  return (
    <Page title={`Decision on lot ${lot.id}`} current="lots" viewer={viewer} firm={firm} done={done}>
      <h1>
        Decision on <a href={`/lots/${lot.id}`}>lot {lot.id}</a>
      </h1>
      <p class="answer">{verdictSentence(lot)}</p>
      {open && (
        <p class="caution">
          <b>Not finished.</b> {stopCosts(open)} Screening tests these cords all the same, and the verdict follows.
        </p>
      )}
      {lot.links.former && <p>{formerWords(lot.links.former)}</p>}
      <ClauseQuoted clause={lot.terms.clause} />
      <p>{pastSentence(standing)}</p>
      {lot.bounds && <Proven proof={lot.bounds} condition={lot.drawIntegrity} />}
      <NotHadList lotId={lot.id} notHad={lot.notHad} cords={lot.cords} size={lot.size} />
      <BothAnswersFacts answers={lot.bothAnswers} lotSize={lot.cords} />
      <h2>The margins</h2>
      <MarginFigure margins={margins} terms={lot.terms} lotId={lot.id} />
      <h2>To be taken out</h2>
      <p>Whatever is accepted, these cords are not.</p>
      <TakenOut cords={takenOut.cords} next={takenOut.next} lotId={lot.id} />
      <h2>Decide and sign</h2>
      <ProblemSummary problems={problems} />
      <form method="post" action={`/lots/${lot.id}/decision`} class="decision">
        <Version value={Number(typed?.version ?? lot.version)} />
        <DecisionChoices {...props} />
        <ConcessionFields problems={problems} typed={typed ?? {}} />
        <Sign problems={problems} typed={typed ?? {}} reasonHint={reasonHint(lot)} />
        <button type="submit">Sign this decision</button>
      </form>
    </Page>
  )
}

function reasonHint({ verdict }: LotRecord): string {
  return verdict === 'accept'
    ? 'Needed for anything but accepting, as the plan accepts; a concession always needs one.'
    : 'Needed for accepting in any way, as the plan rejects.'
}

/** So many lots are named. */
const named = 3

/** Lot by lot: lots may differ, and no common share is made of them. */
function pastSentence({ supplier, lots }: SupplierSummary): string {
  if (lots.length === 0) return `No lot of ${supplier.name} was decided before.`
  const accepted = lots.filter((lot) => lot.accepted).length
  const latest = lots.toReversed().slice(0, named)
  const counts = latest.map(({ lotId, recorded, found }) => ({ lotId, tested: recorded, found }))
  return `Of ${counted(lots.length, 'lot')} of ${supplier.name} decided before, ${whole(accepted)} ${accepted === 1 ? 'was' : 'were'} accepted. Nonconforming of recorded: ${lotsInWords(counts)}.`
}
