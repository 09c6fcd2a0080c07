// The notice to the supplier: which lot was not accepted, by what limit, rule and readings, and what is asked by when.
import type { Notice } from '../../app/documents/notice.ts'
import { ClauseQuoted } from '../contract-clause.tsx'
import { counted, day, whole } from '../figures.ts'
import { Fact, Facts, Field } from '../form.tsx'
import { AccuracyFact, policyWords } from '../items/terms.tsx'
import { type Frame, Page } from '../layout.tsx'
import { entryDigits, entryMarks } from '../lots/cords/result.tsx'
import { placeWords, planSentence } from '../lots/words.ts'
import { DataTable } from '../table.tsx'

export function NoticePage({ viewer, firm, done, notice }: Frame & { notice: Notice }) {
  const { lotId, supplier, item, purchaseOrder, productionMark, decision, tested, found, answerBy, clause } = notice
  return (
    <Page title={`Notice on lot ${lotId}`} current="lots" viewer={viewer} firm={firm} done={done}>
      <form class="screen-only" method="get" action={`/lots/${lotId}/notice`}>
        <Field name="by" label="Answer by" type="date" size="short" value={answerBy} />
        <button type="submit" class="plain">
          Set the day
        </button>
      </form>
      <article class="document">
        <h1>
          Notice to {supplier} · <a href={`/lots/${lotId}`}>Lot {lotId}</a>
        </h1>
        <p class="answer">This lot is not accepted.</p>
        <p>
          {firm?.name ?? 'The buyer'} tested {counted(tested, 'cord')} of {item}, purchase order {purchaseOrder},
          production mark {productionMark}. {whole(found)} {found === 1 ? 'is' : 'are'} nonconforming;{' '}
          {dispositionWords[decision.outcome]}
        </p>
        <Basis notice={notice} />
        <ClauseQuoted clause={clause} />
        <Readings notice={notice} />
        <h2>Please answer by {day(answerBy)}</h2>
        <ol class="to-answer">
          <li>What caused this?</li>
          <li>Why was it not detected before delivery?</li>
          <li>Which other deliveries may be affected?</li>
          <li>What have you changed, from which production mark on?</li>
        </ol>
        <p class="caution">
          The readings hold as far as the tester, its adapters and the cord limit set were right; each cord can be
          tested again.
        </p>
      </article>
    </Page>
  )
}

const dispositionWords = {
  accepted: 'the lot was accepted.',
  conceded: 'the lot was taken by concession only.',
  screened: 'every cord of the lot is tested, and nonconforming ones go back.',
  sorted: 'the conforming cords are kept, the others go back.',
  returned: 'the whole lot goes back.',
} as const

/** Limit and edition, plan, decision rule, and how exact the instrument is. */
function Basis({ notice: { cordLimit, plan, decisionRule, accuracy: of } }: { notice: Notice }) {
  return (
    <Facts>
      <Fact name="Cord limit">{cordLimit}</Fact>
      <Fact name="Plan, frozen before any cord was drawn">{planSentence(plan)}</Fact>
      <Fact name="Marginal readings">{policyWords[decisionRule].long}</Fact>
      <AccuracyFact {...of} />
    </Facts>
  )
}

function Readings({ notice: { cords, more } }: { notice: Notice }) {
  if (cords.length === 0) return null
  return (
    <>
      <DataTable
        compact
        caption="Readings of the nonconforming cords: margins to the limit"
        columns={[
          { head: 'Cord' },
          { head: 'Carton, place', text: true },
          { head: 'Readings', text: true },
          { head: 'Marks', text: true },
        ]}
        rows={cords.map((cord) => ({
          cells: [
            whole(cord.position),
            placeWords(cord),
            cord.result ? entryDigits(cord.result.reading) : '',
            cord.result ? entryMarks(cord.result.reading) : '',
          ],
        }))}
      />
      {more && <p>Only the first {counted(cords.length, 'cord')} are listed.</p>}
    </>
  )
}
