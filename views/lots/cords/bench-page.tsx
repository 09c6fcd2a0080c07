// The bench: one cord at a time, to be used in gloves on a telephone.

import type { Problems, Typed } from '../../../app/kit/problems.ts'
import type { Marks } from '../../../app/lots/record/cord.ts'
import type { LotRecord } from '../../../app/lots/record/lot.ts'
import type { CordFacts } from '../../../app/lots/record/pick-list.ts'
import { counted, whole } from '../../figures.ts'
import { FormKey, ProblemSummary } from '../../form.tsx'
import { type Frame, Page } from '../../layout.tsx'
import { findingSentence } from '../../words/findings.ts'
import { fetchSentence, openAfterVerdict, stopCosts } from '../first-fetch.tsx'
import { positionsOf } from '../not-had.tsx'
import { verdictSentence } from '../proven.tsx'
import { placeWords, stageWords } from '../words.ts'
import { EmptyPlace, smooth, WithoutReadings } from './cannot-test.tsx'
import { ReadingFields } from './reading.tsx'
import { EntryState } from './result.tsx'

export type BenchProps = {
  lot: LotRecord
  /** the cord to be tested now; undefined when all that were drawn are recorded */
  cord: CordFacts | undefined
  /** the cord that was recorded just before */
  last: CordFacts | undefined
  /** what the reader entered last in this lot */
  marks: Marks
  /** the keys of the three forms */
  formKeys: { tested: string; untested: string; recount: string }
  /** somebody else was first, or the page was old: nothing of this form was recorded */
  conflict?: string | undefined
  problems?: Problems | undefined
  typed?: Typed | undefined
}

export function BenchPage({ viewer, firm, done, ...bench }: Frame & BenchProps) {
  return (
    <Page title={`Bench: lot ${bench.lot.id}`} current="lots" viewer={viewer} firm={firm} done={done}>
      <Bench {...bench} />
    </Page>
  )
}

/** The part of the page that goes on from cord to cord. */
function Bench({ lot, cord, last, marks, formKeys, conflict, problems, typed }: BenchProps) {
  return (
    <section id="bench" class="bench">
      <Count lot={lot} />
      {conflict && (
        <p class="problems" role="alert">
          {conflict}
        </p>
      )}
      {last?.result && <Last cord={last} />}
      <Undecided lot={lot} />
      <Stop lot={lot} />
      {cord?.firstFetch && lot.firstFetch?.open && (
        <p>First fetch, for the standard’s verdict: {fetchSentence(lot.firstFetch)}</p>
      )}
      {cord ? (
        <CordForms
          lot={lot}
          cord={cord}
          formKeys={formKeys}
          problems={problems}
          typed={typed ?? takenOver(marks, last, cord)}
        />
      ) : (
        <Finished lot={lot} />
      )}
    </section>
  )
}

function Count({ lot: { id, plan, progress, state, planProgress, testedStage } }: { lot: LotRecord }) {
  const recorded = progress.sampleRecorded + progress.restRecorded
  const found = progress.sampleNonconforming + progress.restNonconforming
  const stage =
    plan && planProgress && state === 'drawn' ? stageWords(plan, testedStage ?? planProgress.stage) : undefined
  return (
    <p class="count">
      <span>
        <a href={`/lots/${id}`}>Lot {id}</a>
        {stage && `, ${stage}`}: {whole(recorded)} of {whole(recorded + progress.toDo)} done
      </span>
      <span>
        {whole(found)} {found === 1 ? 'does' : 'do'} not conform{allowedIn(plan, state, planProgress?.stage ?? 1)}
      </span>
    </p>
  )
}

function allowedIn(plan: LotRecord['plan'], state: LotRecord['state'], stage: number): string {
  const numbers = plan?.stages[stage - 1]
  if (state === 'screening' || !numbers || plan.kind === 'every-cord') return ''
  if (plan.stages.length === 1) return ` · ${whole(numbers.acceptanceNumber)} allowed`
  return ` · rejected from ${whole(numbers.rejectionNumber)}`
}

/** The verdict of the cord before, with its reason. */
function Last({ cord }: { cord: CordFacts }) {
  if (!cord.result) return null
  return (
    <div class="last" role="status">
      <p class="verdict">
        {whole(cord.position)}: <EntryState entry={cord.result} />
      </p>
      {cord.result.findings.map((finding) => (
        <p>{findingSentence(finding)}</p>
      ))}
    </div>
  )
}

/** The bench goes on. */
function Undecided({ lot: { notHad } }: { lot: LotRecord }) {
  const { undecided } = notHad
  if (undecided.length === 0) return null
  return (
    <p>
      {counted(undecided.length, 'cord is', 'cords are')} not decided: {positionsOf(undecided)}. A manager rules; no
      verdict accepts before.
    </p>
  )
}

function Stop({ lot }: { lot: LotRecord }) {
  const { state, verdict, rejectedSince } = lot
  const open = openAfterVerdict(lot)
  if (open)
    return (
      <p class="stop">
        <b>{verdictSentence(lot)}</b> {stopCosts(open)}
      </p>
    )
  if (state !== 'drawn' || verdict !== 'reject' || !rejectedSince) return null
  return (
    <p class="stop">
      <b>
        The plan rejects this lot: decided at cord {whole(rejectedSince.position)}. You may stop; a manager decides.
      </b>
    </p>
  )
}

function Finished({ lot }: { lot: LotRecord }) {
  const staged = lot.state === 'drawn' && (lot.plan?.stages.length ?? 1) > 1
  return (
    <>
      <h1>{staged && lot.verdict ? 'Stop: the plan has its verdict.' : finishedWords(lot)}</h1>
      {staged && lot.verdict && <p>{verdictSentence(lot)}</p>}
      <p class="actions">
        <a class="button" href={`/lots/${lot.id}`}>
          Back to lot {lot.id}
        </a>
      </p>
    </>
  )
}

function finishedWords({ state, notHad }: LotRecord): string {
  if (notHad.undecided.length > 0) return 'All that can be tested now is recorded: a manager rules on the rest.'
  return state === 'screened' ? 'Every cord of the lot is recorded.' : 'Every drawn cord is recorded.'
}

type FormsProps = Pick<BenchProps, 'lot' | 'formKeys' | 'problems'> & { cord: CordFacts; typed: Typed }

function CordForms({ lot, cord, formKeys, problems, typed }: FormsProps) {
  const form = formOf(typed, problems)
  const told = (of: typeof form) => (form === of ? { typed, problems } : { typed: {}, problems: undefined })
  const path = `/lots/${lot.id}/bench`
  return (
    <>
      <h1 class="position" tabindex={-1} autofocus>
        <small>cord</small> {whole(cord.position)}
      </h1>
      <p class="place">
        {placeWords(cord)}
        {cord.standsInFor !== undefined && <small> reserve for cord {whole(cord.standsInFor)}</small>}
      </p>
      <ProblemSummary problems={problems} />
      <form method="post" action={path} {...smooth(path)}>
        <FormKey value={formKeys.tested} />
        <input type="hidden" name="kind" value="tested" />
        <input type="hidden" name="position" value={cord.position} />
        <ReadingFields {...told('tested')} />
        <button type="submit" class="large">
          Record cord {whole(cord.position)}
        </button>
      </form>
      <WithoutReadings
        lot={lot}
        cord={cord}
        formKey={formKeys.untested}
        open={form === 'untested'}
        {...told('untested')}
      />
      <EmptyPlace lot={lot} cord={cord} formKey={formKeys.recount} open={form === 'recount'} {...told('recount')} />
      <p>
        <a href={`/lots/${lot.id}/draw`}>All drawn cords</a> · <a href={`/lots/${lot.id}/file`}>Results from a file</a>
      </p>
    </>
  )
}

/** Which of the three forms came back with its problems. */
function formOf({ size, kind = 'tested' }: Typed, problems: Problems | undefined) {
  if (size !== undefined) return 'recount'
  return kind !== 'tested' || problems?.kind !== undefined ? 'untested' : 'tested'
}

/** Spool and tester stay from cord to cord; the mark of a carton only as long as the next cord lies in the same one. */
function takenOver(marks: Marks, last: CordFacts | undefined, cord: CordFacts): Typed {
  return { ...marks, carton: last?.carton === cord.carton ? marks.carton : '' }
}
