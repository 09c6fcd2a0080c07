// The percentage question, whole: what a share of each lot would have let through, on one sheet for the supplier.
import type { PercentageReport } from '../../app/history/replay/report.ts'
import type { Problems, Typed } from '../../app/kit/problems.ts'
import { NumbersCondition } from '../cautions.tsx'
import { counted, expected, money, whole } from '../figures.ts'
import { Blank, BlankProblem, ProblemSummary, Select } from '../form.tsx'
import { type Frame, Page } from '../layout.tsx'
import { DrawnLot } from './drawn-lot.tsx'
import { ReplayPart } from './replay-lots.tsx'
import { SamplesTable } from './samples-table.tsx'
import { MakingPart, SpoolPart } from './termination-model.tsx'

export type ReportForm = { suppliers: { id: number; name: string }[]; items: { id: number; name: string }[] }
type Props = Frame & {
  currency: string
  choices: ReportForm
  typed: Typed
  report?: PercentageReport
  problems?: Problems
}

export function PercentageReportPage({ viewer, firm, done, currency, choices, typed, report, problems }: Props) {
  return (
    <Page title="The percentage question" current="suppliers" viewer={viewer} firm={firm} done={done}>
      <h1>What would a percentage have let through?</h1>
      <ProblemSummary problems={problems} />
      <Question choices={choices} typed={typed} problems={problems ?? {}} />
      {report && (
        <div class="sheet">
          <Answer report={report} typed={typed} currency={currency} />
        </div>
      )}
    </Page>
  )
}

function Question({ choices, typed, problems }: { choices: ReportForm; typed: Typed; problems: Problems }) {
  const options = (all: ReportForm['items']) => all.map(({ id, name }) => ({ value: String(id), label: name }))
  return (
    <form method="get" action="/percentage" class="screen-only">
      <p class="ask">
        Had we tested{' '}
        <Blank name="percent" label="Percent of each lot" value={typed.percent ?? ''} problem={problems.percent} /> % of
        each lot and accepted it if at most{' '}
        <Blank
          name="allowed"
          label="Nonconforming cords allowed"
          value={typed.allowed ?? ''}
          problem={problems.allowed}
          inputmode="numeric"
        />{' '}
        of them did not conform …
      </p>
      <BlankProblem name="percent" problem={problems.percent} />
      <BlankProblem name="allowed" problem={problems.allowed} />
      <div class="side">
        <Select
          name="supplier"
          label="Supplier (none chosen: all of them)"
          value={typed.supplier}
          problem={problems.supplier}
          options={options(choices.suppliers)}
        />
        <Select
          name="item"
          label="Item (none chosen: all of them)"
          value={typed.item}
          problem={problems.item}
          options={options(choices.items)}
        />
      </div>
      <button type="submit">Work it out</button>
    </form>
  )
}

function Answer({ report, typed, currency }: { report: PercentageReport; typed: Typed; currency: string }) {
  const lots = report.byPlan.lots + report.afterScreening.lots
  return (
    <>
      <p class="answer">{firstLine(report, lots)}</p>
      <p class="because">
        {scopeIn(report)} Exact for each lot over every sample that could have been drawn from it: found cords are taken
        out, a rejected lot ships none.
        {report.leftOut > 0 &&
          ` ${counted(report.leftOut, 'lot')} tested to the end ${report.leftOut === 1 ? 'is' : 'are'} left out, as a cord was missing or could not be tested.`}
      </p>
      {lots > 0 && (
        <>
          <p>{costIn(report, currency)}</p>
          {report.beside && <SamplesTable report={report} beside={report.beside} currency={currency} />}
          <DrawnLot report={report} addressOf={(lot, draw) => addressOf(typed, lot, draw)} />
          <ReplayPart report={report} />
        </>
      )}
      <div class="side">
        {report.making && <MakingPart making={report.making} />}
        <SpoolPart report={report} />
      </div>
      <NumbersCondition />
    </>
  )
}

/** The same question, with a sample of this lot. */
function addressOf({ percent = '', allowed = '', supplier = '', item = '' }: Typed, lot: number, draw: number): string {
  const chosen = { supplier, item, lot: String(lot), draw: String(draw) }
  return `/percentage?${new URLSearchParams({ percent, allowed, ...chosen })}#drawn`
}

function firstLine({ byPlan, afterScreening, percent, allowed, trial }: PercentageReport, lots: number): string {
  if (lots === 0) return 'No lot was tested cord by cord yet, so there is nothing to replay.'
  const tooMany = byPlan.heldTooMany + afterScreening.heldTooMany
  const of = `Of ${counted(lots, 'lot')} tested cord by cord, ${tooMany === 0 ? 'none' : whole(tooMany)} held too many.`
  const may = allowed === 0 ? 'none allowed' : `at most ${whole(allowed)} allowed`
  return `${of} A ${percent} % sample (${may}) would have accepted ${expected(trial.acceptedTooMany)} of those on average, and shipped ${expected(trial.shipped)} cords that do not conform from all the lots together.`
}

function scopeIn({ scope: { supplier, item } }: PercentageReport): string {
  if (supplier && item) return `Lots of ${item} from ${supplier}.`
  if (supplier) return `Lots from ${supplier}.`
  if (item) return `Lots of ${item}, from every supplier.`
  return 'Lots of every item from every supplier.'
}

/** Rejected lots cost too: they go back, or all their cords are tested after all, as each lot's item does it. */
function costIn({ trial, everyCord }: PercentageReport, currency: string): string {
  const { testing, escapes, returns, screening, total } = trial.cost
  const parts = [
    `${money(testing, currency)} for ${counted(trial.tests, 'test')}`,
    `${money(escapes, currency)} for cords that escape`,
    ...(returns > 0 ? [`${money(returns, currency)} for lots sent back`] : []),
    ...(screening > 0 ? [`${money(screening, currency)} for screening lots rejected`] : []),
  ]
  const rejected = `It would have rejected ${expected(trial.rejected)} lots on average, ${expected(trial.rejectedGood)} of them without too many.`
  return `${rejected} In all it would have cost ${money(total, currency)} at the items’ own costs: ${parts.join(', ')}. Testing every cord costs ${money(everyCord.cents, currency)}.`
}
