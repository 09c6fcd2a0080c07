// The percentage question, whole: what a share of each lot would have let through, on one sheet for the supplier.
import type { PercentageReport } from '../../app/history/replay/report.ts'
import type { Problems, Typed } from '../../app/kit/problems.ts'
import { NumbersCondition } from '../cautions.tsx'
import { counted, expected, money, whole } from '../figures.ts'
import { ProblemSummary, Select, ShortField } from '../form.tsx'
import { Columns, Topic } from '../frame.tsx'
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
      <Columns
        side="left"
        summary={report && `${report.percent} % of each lot: change`}
        open={problems !== undefined}
        panel={<Question choices={choices} typed={typed} problems={problems ?? {}} />}
      >
        <h1>What would a percentage have let through?</h1>
        {report && (
          <div class="sheet">
            <Answer report={report} typed={typed} currency={currency} />
          </div>
        )}
      </Columns>
    </Page>
  )
}

function Question({ choices, typed, problems }: { choices: ReportForm; typed: Typed; problems: Problems }) {
  const options = (all: ReportForm['items']) => all.map(({ id, name }) => ({ value: String(id), label: name }))
  const of = (name: string) => ({ name, value: typed[name], problem: problems[name] })
  return (
    <form method="get" action="/percentage" class="screen-only">
      <ProblemSummary problems={problems} />
      <ShortField {...of('percent')} value={typed.percent ?? ''} label="Of each lot, tested, %" />
      <ShortField
        {...of('allowed')}
        value={typed.allowed ?? ''}
        label="Nonconforming cords allowed"
        inputmode="numeric"
      />
      <Select {...of('supplier')} label="Supplier" first="All suppliers" options={options(choices.suppliers)} />
      <Select {...of('item')} label="Item" first="All items" options={options(choices.items)} />
      <button type="submit">Work it out</button>
    </form>
  )
}

function Answer({ report, typed, currency }: { report: PercentageReport; typed: Typed; currency: string }) {
  const lots = report.byPlan.lots + report.afterScreening.lots
  return (
    <>
      <p class="answer">{firstLine(report, lots, currency)}</p>
      <p class="because">
        {scopeIn(report)}
        {report.leftOut > 0 &&
          ` ${counted(report.leftOut, 'lot')} tested to the end ${report.leftOut === 1 ? 'is' : 'are'} left out, as a cord was missing or could not be tested.`}
      </p>
      {lots > 0 && (
        <>
          {report.beside && <SamplesTable report={report} beside={report.beside} currency={currency} />}
          <NumbersCondition />
          <Topic title="What the cost is made of">
            <p>{costIn(report, currency)}</p>
          </Topic>
          <Topic title="How these numbers are worked out">
            <p>
              Exact for each lot over every sample that could have been drawn from it: nonconforming cords found are
              removed, and nothing of a rejected lot is put into use.
            </p>
          </Topic>
          <Topic title="One sample of one lot, cord by cord" open={typed.draw !== undefined}>
            <DrawnLot report={report} addressOf={(lot, draw) => addressOf(typed, lot, draw)} />
          </Topic>
          <Topic title="The lots behind it">
            <ReplayPart report={report} />
          </Topic>
        </>
      )}
      <Topic title="Plugs, spools and cords: why a percentage says little">
        <div class="side">
          {report.making && <MakingPart making={report.making} />}
          <SpoolPart report={report} />
        </div>
      </Topic>
    </>
  )
}

/** The same question, with a sample of this lot. */
function addressOf({ percent = '', allowed = '', supplier = '', item = '' }: Typed, lot: number, draw: number): string {
  const chosen = { supplier, item, lot: String(lot), draw: String(draw) }
  return `/percentage?${new URLSearchParams({ percent, allowed, ...chosen })}#drawn`
}

function firstLine(
  { byPlan, afterScreening, percent, allowed, trial }: PercentageReport,
  lots: number,
  currency: string,
) {
  if (lots === 0) return 'No lot was tested cord by cord yet, so there is nothing to replay.'
  const tooMany = byPlan.heldTooMany + afterScreening.heldTooMany
  const may = allowed === 0 ? 'none allowed' : `at most ${whole(allowed)} allowed`
  return `Of ${counted(lots, 'lot')} tested cord by cord, ${tooMany === 0 ? 'none' : whole(tooMany)} held too many. A ${percent} % sample (${may}) would have accepted ${expected(trial.acceptedTooMany)} of those and let ${expected(trial.shipped)} nonconforming cords through, for ${money(trial.cost.total, currency)} in all.`
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
