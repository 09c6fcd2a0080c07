// What a decision rested on, as its signature froze it; nothing here follows later changes.

import type { ShownMargins } from '../../../app/lots/evidence/margins.ts'
import type { FrozenEvidence, NamedRow } from '../../../app/lots/evidence/read.ts'
import type { DecisionFacts } from '../../../app/lots/record/steps.ts'
import { ClauseFact, weakerSentence } from '../../contract-clause.tsx'
import { counted, decibels, moment, whole } from '../../figures.ts'
import { Fact, Facts } from '../../form.tsx'
import { AccuracyFact, CostsFact, policyWords } from '../../items/terms.tsx'
import { type Frame, Page } from '../../layout.tsx'
import { DataTable } from '../../table.tsx'
import { outcomeWords } from '../../words/lots.ts'
import { ResultStateMark } from '../cords/result.tsx'
import { BothAnswersFacts, NotHadList } from '../not-had.tsx'
import { mayBeIn, Proven } from '../proven.tsx'
import { planSentence } from '../words.ts'
import { MarginFigure } from './margins.tsx'

type Props = Frame & {
  decision: DecisionFacts
  evidence: FrozenEvidence
  /** as many as fit on a page; `next` is the position after which the others follow */
  results: NamedRow[]
  next: number | undefined
  margins: ShownMargins
  /** whether the rows still give the signed digest; undefined where they are too many to look without being asked */
  asSigned: boolean | undefined
  path: string
  currency: string
}

export function EvidencePage({ viewer, firm, done, decision, evidence, path, currency, ...props }: Props) {
  const { results, next, margins, asSigned } = props
  const { lot, plan, draw, method, rows } = evidence
  return (
    <Page title={`Evidence of lot ${lot.id}`} current="lots" viewer={viewer} firm={firm} done={done}>
      <h1>
        Evidence of the decision on <a href={`/lots/${lot.id}`}>lot {lot.id}</a>
      </h1>
      <p class="answer">
        {outcomeWords[decision.outcome]}, signed by {decision.by}, {moment(decision.at)}.
      </p>
      <p>This is what stood here at that moment. It does not change any more.</p>
      <h2>Lot and plan</h2>
      <PlanAsFrozen plan={plan} clause={evidence.terms.clause} />
      <Inputs evidence={evidence} currency={currency} />
      <Numbers evidence={evidence} margins={margins} />
      <h2>Method</h2>
      <p>{method.judging}</p>
      <p>
        {method.drawing} Seed <code>{draw.seed}</code>, drawn by {draw.by}, {moment(draw.at)}: {draw.method}.
      </p>
      <p>{method.bounds}</p>
      <h2>Results of {counted(rows.count, 'cord')}</h2>
      <p>{method.rows}</p>
      <Signed rows={rows} asSigned={asSigned} path={path} />
      <Results results={results} />
      {next !== undefined && (
        <p>
          <a href={`${path}?after=${next}`}>The results that follow</a>
        </p>
      )}
    </Page>
  )
}

function PlanAsFrozen({ plan, clause }: Pick<FrozenEvidence, 'plan'> & Pick<FrozenEvidence['terms'], 'clause'>) {
  const weaker = weakerSentence({ ...plan, clause })
  return (
    <p>
      <b>{planSentence(plan)}</b> Frozen by {plan.by}, {moment(plan.at)}
      {plan.chosenBy !== undefined && `, by the rule that ${plan.chosenBy} chose at announcement`}.
      {weaker !== undefined && ` ${weaker}`}
    </p>
  )
}

function Numbers({ evidence, margins }: Pick<Props, 'evidence' | 'margins'>) {
  const { lot, proof, condition, notHad, bothAnswers, terms } = evidence
  const cords = lot.recountedSize ?? lot.size
  return (
    <>
      <h2>Numbers</h2>
      <p>{mayBeIn({ ...proof, expectedInUntested: proof.expectedInUntested })}</p>
      <Proven proof={{ ...proof, expectedInUntested: proof.expectedInUntested }} condition={condition} />
      {notHad && <NotHadList lotId={lot.id} notHad={notHad} cords={cords} size={lot.size} />}
      <BothAnswersFacts answers={bothAnswers} lotSize={cords} />
      <MarginFigure margins={margins} terms={terms} lotId={lot.id} />
    </>
  )
}

type SignedProps = Pick<Props, 'asSigned' | 'path'> & { rows: FrozenEvidence['rows'] }

function Signed({ rows: { count, sha256, lotVersion }, asSigned, path }: SignedProps) {
  return (
    <>
      <p>
        Digest of the results as they were signed, at the lot’s version {whole(lotVersion)}: <code>{sha256}</code>
      </p>
      {asSigned === undefined ? (
        <p class="screen-only">
          <a href={`${path}?check=rows`}>Check all {counted(count, 'result')} against it</a> (takes some seconds)
        </p>
      ) : (
        <p>
          <b>
            {asSigned
              ? 'The results in the database still give this digest: they are those that were signed.'
              : 'The results in the database do not give this digest: something was changed behind the service’s back after the signature. Compare with a backup from before.'}
          </b>
        </p>
      )}
    </>
  )
}

function Inputs({ evidence: { lot, terms }, currency }: { evidence: FrozenEvidence; currency: string }) {
  return (
    <Facts>
      <Fact name="Supplier">{lot.supplier}</Fact>
      <Fact name="Item">
        {lot.item}, {lot.lengthMetres} m, claimed to be {terms.categoryClaimed}
      </Fact>
      <Fact name="Production mark, purchase order">
        {lot.productionMark}, {lot.purchaseOrder}
      </Fact>
      {lot.resubmissionOf !== undefined && (
        <Fact name="Resubmitted">
          it was lot {lot.resubmissionOf}, which went back; sorted, as the supplier declared: {lot.declaredSorting}
        </Fact>
      )}
      {lot.replacementOf !== undefined && <Fact name="In the place of">lot {lot.replacementOf}, which went back</Fact>}
      <Fact name="Cords">
        {lot.recountedSize !== undefined && `${whole(lot.recountedSize)} counted again after the draw, `}
        {whole(lot.size)} counted, {whole(lot.announcedSize)} announced; {whole(lot.cartons)} cartons of{' '}
        {whole(lot.cordsInCarton)}
      </Fact>
      <Fact name="Cord limit">{terms.cordLimit}</Fact>
      <ClauseFact clause={terms.clause} />
      <AccuracyFact crosstalk={terms.crosstalkAccuracy} returnLoss={terms.returnLossAccuracy} />
      <Fact name="Marginal cords">{policyWords[terms.marginalPolicy].long}</Fact>
      <Fact name="Too many">
        {counted(terms.tooMany, 'cord')}, to be caught {terms.catchOf100} times in 100
      </Fact>
      <CostsFact costs={terms} currency={currency} />
    </Facts>
  )
}

function Results({ results }: { results: NamedRow[] }) {
  return (
    <DataTable
      compact
      columns={[
        { head: 'Cord' },
        { head: 'State', text: true },
        { head: 'Crosstalk' },
        { head: 'Return loss' },
        { head: 'Wire map, visual', text: true },
        { head: 'Recorded', text: true },
      ]}
      rows={results.map((result) => ({
        cells: [
          <>
            {whole(result.position)}
            {result.standsInFor !== undefined && <small>for {whole(result.standsInFor)}</small>}
            {!result.counts && <small>does not count</small>}
          </>,
          <ResultStateMark {...result} standing={result.counts ? 'counts' : 'aside'} />,
          <Margin digits={result.crosstalkMargin} />,
          <Margin digits={result.returnLossMargin} />,
          result.note ?? `${faultWords(result.wireMap)}, ${faultWords(result.visual)}`,
          <>
            {result.recordedBy}, {moment(result.recordedAt)}
            {result.entry > 1 && <small>entry {whole(result.entry)}</small>}
          </>,
        ],
      }))}
    />
  )
}

function Margin({ digits }: { digits: string | undefined }) {
  return digits === undefined ? '–' : <span class="unbroken">{decibels(digits)}</span>
}

function faultWords(inspection: NamedRow['wireMap']): string {
  return inspection === 'at-fault' ? 'at fault' : 'in order'
}
