// The percentage question, whole: what a share of each lot would have let through, on one sheet for the supplier.
import type { PercentageReport } from '../../app/history/replay/report.ts'
import type { Problems, Typed } from '../../app/kit/problems.ts'
import { NumbersCondition } from '../cautions.tsx'
import { counted, expected, money, whole } from '../figures.ts'
import { Blank, BlankProblem, ProblemSummary, Select } from '../form.tsx'
import { type Frame, Page } from '../layout.tsx'
import { EffortPart } from './effort-table.tsx'
import { ReplayPart } from './replay-lots.tsx'
import { MakingPart, SpoolPart } from './termination-model.tsx'

export type ReportForm = { suppliers: { id: number; name: string }[]; items: { id: number; name: string }[] }
type Props = Frame & {
  currency: string
  choices: ReportForm
  typed: Typed
  report?: PercentageReport
  problems?: Problems
}

export function PercentageReportPage({ viewer, firm, currency, choices, typed, report, problems }: Props) {
  return (
    <Page title="The percentage question" current="suppliers" viewer={viewer} firm={firm}>
      <h1>What would a percentage have let through?</h1>
      <ProblemSummary problems={problems} />
      <Question choices={choices} typed={typed} problems={problems ?? {}} />
      {report && (
        <div class="sheet">
          <Answer report={report} currency={currency} />
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
          label="How many may not conform"
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
          label="Supplier (none: all)"
          value={typed.supplier}
          problem={problems.supplier}
          options={options(choices.suppliers)}
        />
        <Select
          name="item"
          label="Item (none: all)"
          value={typed.item}
          problem={problems.item}
          options={options(choices.items)}
        />
      </div>
      <button type="submit">Work it out</button>
    </form>
  )
}

function Answer({ report, currency }: { report: PercentageReport; currency: string }) {
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
          <p>{savedIn(report, currency)}</p>
          <ReplayPart report={report} />
          <EffortPart report={report} />
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

function firstLine({ byPlan, afterScreening, percent, allowed, trial }: PercentageReport, lots: number): string {
  if (lots === 0) return 'No lot was tested cord by cord yet, so there is nothing to replay.'
  const tooMany = byPlan.heldTooMany + afterScreening.heldTooMany
  const of = `Of ${counted(lots, 'lot')} tested cord by cord, ${tooMany === 0 ? 'none' : whole(tooMany)} held too many.`
  const may = allowed === 0 ? 'none may fail' : `at most ${whole(allowed)} may fail`
  return `${of} A ${percent} % sample (${may}) would have accepted ${expected(trial.acceptedTooMany)} of those on average, and shipped ${expected(trial.shipped)} cords that do not conform from all the lots together.`
}

function scopeIn({ scope: { supplier, item } }: PercentageReport): string {
  if (supplier && item) return `Lots of ${item} from ${supplier}.`
  if (supplier) return `Lots from ${supplier}.`
  if (item) return `Lots of ${item}, from every supplier.`
  return 'Lots of every item from every supplier.'
}

/** Rejected lots cost too: they go back, or all their cords are tested after all. Both balances, at the items' own costs. */
function savedIn({ saved, trial }: PercentageReport, currency: string): string {
  if (saved.tests === 0) return 'It would have tested every cord and saved no test.'
  const each = (cents: number, tests: number) => money(cents / tests, currency)
  const sentBack = `It would have rejected ${expected(trial.rejected)} lots on average, ${expected(trial.rejectedGood)} of them without too many.`
  const returned = `Where these go back, ${counted(saved.tests, 'test')} are saved against testing every cord; each spares ${each(saved.cents, saved.tests)} and costs ${each(trial.escapesCents + trial.returnsCents, saved.tests)}: ${each(trial.escapesCents, saved.tests)} in cords that escape, ${each(trial.returnsCents, saved.tests)} in lots returned.`
  const left = saved.tests - trial.screened
  if (left < 0.5) return `${sentBack} ${returned} Where these are screened, no test is saved.`
  return `${sentBack} ${returned} Where these are screened, ${expected(left)} tests are saved; each spares ${each(saved.cents - trial.screenedCents, left)} and costs ${each(trial.escapesCents, left)} in cords that escape. All at the items’ own costs.`
}
