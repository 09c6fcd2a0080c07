// What a decision rested on, as its signature froze it; nothing here follows later changes.
import type { Evidence, EvidenceResult } from '../../../app/lots/decision/evidence.ts'
import type { DecisionFacts } from '../../../app/lots/show.ts'
import { accuracy, counted, decibels, moment, money, whole } from '../../figures.ts'
import { Fact, Facts } from '../../form.tsx'
import { policyWords } from '../../items/terms.tsx'
import { type Frame, Page } from '../../layout.tsx'
import { Table } from '../../table.tsx'
import { ResultState } from '../cords/result.tsx'
import { Proven } from '../proven.tsx'
import { outcomeWords, planSentence } from '../words.ts'
import { MarginFigure } from './margins.tsx'

/** `after`: the position after which the shown results begin. */
type Props = Frame & { decision: DecisionFacts; evidence: Evidence; path: string; after: number; currency: string }

/** So many rows stand on one page. */
const rowsAtOnce = 1000

export function EvidencePage({ reader, firm, decision, evidence, path, after, currency }: Props) {
  const { lot, plan, draw, method, results, proof } = evidence
  const following = results.filter((result) => result.position > after)
  const shown = following.slice(0, rowsAtOnce)
  return (
    <Page title={`Evidence of lot ${lot.id}`} current="lots" reader={reader} firm={firm}>
      <h1>
        Evidence of the decision on <a href={`/lots/${lot.id}`}>lot {lot.id}</a>
      </h1>
      <p class="answer">
        {outcomeWords[decision.outcome]}, signed by {decision.by}, {moment(decision.at)}.
      </p>
      <p>This is what stood here at that moment. It does not change any more.</p>
      <h2>Lot and plan</h2>
      <p>
        <b>{planSentence(plan)}</b> Frozen by {plan.by}, {moment(plan.at)}.
      </p>
      <Inputs evidence={evidence} currency={currency} />
      <h2>Numbers</h2>
      <Proven proof={{ ...proof, expectedInUntested: proof.expectedInUntested }} condition={evidence.condition} />
      <MarginFigure results={results} terms={evidence.terms} lotId={lot.id} />
      <h2>Method</h2>
      <p>{method.judging}</p>
      <p>
        {method.drawing} Seed <code>{draw.seed}</code>, drawn by {draw.by}, {moment(draw.at)}: {draw.method}.
      </p>
      <p>{method.bounds}</p>
      <h2>Results of {counted(results.length, 'cord')}</h2>
      <Results results={shown} />
      {following.length > shown.length && (
        <p>
          <a href={`${path}?after=${shown.at(-1)?.position ?? 0}`}>The results that follow</a>
        </p>
      )}
    </Page>
  )
}

function Inputs({ evidence: { lot, terms }, currency }: { evidence: Evidence; currency: string }) {
  return (
    <Facts>
      <Fact name="Supplier">{lot.supplier}</Fact>
      <Fact name="Item">
        {lot.item}, {lot.lengthMetres} m, claimed to be {terms.categoryClaimed}
      </Fact>
      <Fact name="Production mark, purchase order">
        {lot.productionMark}, {lot.purchaseOrder}
      </Fact>
      <Fact name="Cords">
        {whole(lot.size)} counted, {whole(lot.announcedSize)} announced; {whole(lot.cartons)} cartons of{' '}
        {whole(lot.cordsInCarton)}
      </Fact>
      <Fact name="Cord limit">{terms.cordLimit}</Fact>
      <Fact name="Tester’s accuracy">
        crosstalk {accuracy(terms.crosstalkAccuracy)}, return loss {accuracy(terms.returnLossAccuracy)}
      </Fact>
      <Fact name="Marginal cords">{policyWords[terms.marginalPolicy].long}</Fact>
      <Fact name="Too many">
        {counted(terms.tooMany, 'cord')}, to be caught {terms.catchOf100} times in 100
      </Fact>
      <Fact name="Costs">
        {money(terms.costTestCents, currency)} a test, {money(terms.costEscapeCents, currency)} an escaped cord,{' '}
        {money(terms.costReturnCents, currency)} a lot returned
      </Fact>
    </Facts>
  )
}

function Results({ results }: { results: EvidenceResult[] }) {
  return (
    <Table
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
            {!result.counts && <small>replaced by a stand-in</small>}
          </>,
          <ResultState state={result.state} kind={result.kind} nonconforming={result.nonconforming} />,
          result.crosstalkMargin === undefined ? '–' : decibels(result.crosstalkMargin),
          result.returnLossMargin === undefined ? '–' : decibels(result.returnLossMargin),
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

function faultWords(inspection: EvidenceResult['wireMap']): string {
  return inspection === 'at-fault' ? 'at fault' : 'in order'
}
