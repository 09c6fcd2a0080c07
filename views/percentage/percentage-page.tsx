// The percentage question: what testing a share of each lot would have let through, had not every cord been tested.

import type { PercentageReplay } from '../../app/history/replay/answer.ts'
import type { PercentageQuestion } from '../../app/history/replay/percentage.ts'
import type { ReplaySum } from '../../app/history/replay/replayed.ts'
import type { Problems, Typed } from '../../app/kit/problems.ts'
import { counted, expected, whole } from '../figures.ts'
import { Blank, BlankProblem, ProblemSummary } from '../form.tsx'
import { type Frame, Page } from '../layout.tsx'
import { DrawnLot } from './drawn-lot.tsx'
import { ReplayTable } from './replay-table.tsx'
import { SpoolOrCords } from './spool-or-cords.tsx'

type Props = Frame & {
  supplier: { id: number; name: string }
  typed: Typed
  /** undefined where the question could not be read */
  answer?: PercentageReplay
  problems?: Problems
}

export function PercentagePage({ viewer, firm, supplier, typed, answer, problems }: Props) {
  return (
    <Page title={`The percentage question, ${supplier.name}`} current="suppliers" viewer={viewer} firm={firm}>
      <h1>
        What would a percentage have let through? <small>{supplier.name}</small>
      </h1>
      <ProblemSummary problems={problems} />
      <form method="get" action={`/suppliers/${supplier.id}/percentage`}>
        <p class="ask">
          Had we tested{' '}
          <Blank name="percent" label="Percent of each lot" value={typed.percent ?? ''} problem={problems?.percent} /> %
          of each lot and accepted it if at most{' '}
          <Blank
            name="allowed"
            label="How many may fail"
            value={typed.allowed ?? ''}
            problem={problems?.allowed}
            inputmode="numeric"
          />{' '}
          of them did not conform …
        </p>
        <BlankProblem name="percent" problem={problems?.percent} />
        <BlankProblem name="allowed" problem={problems?.allowed} />
        <button type="submit">Work it out</button>
      </form>
      {answer && <Answer {...answer} />}
    </Page>
  )
}

function Answer({ question, grid, draw, tooLargeToDraw, remainders }: PercentageReplay) {
  const { byPlan, afterScreening, leftOut } = question
  const lots = [...byPlan.lots, ...afterScreening.lots]
  return (
    <>
      <p class="answer">{firstLine(question)}</p>
      {lots.length > 0 && (
        <p class="because">
          Exact for each lot: over every sample that could have been drawn from it, found cords taken out, a rejected
          lot shipping none. When every cord is tested, none of these is shipped, as far as the tester is right.
        </p>
      )}
      {leftOut > 0 && (
        <p>
          {counted(leftOut, 'lot was', 'lots were')} tested to the end but {leftOut === 1 ? 'is' : 'are'} left out: a
          cord of it was missing or could not be tested.
        </p>
      )}
      {lots.length > 0 && (
        <p class="screen-only">
          <a
            href={`/percentage?supplier=${question.supplier.id}&percent=${question.percent}&allowed=${question.acceptanceNumber}`}
          >
            On one sheet, for every percentage and for the same effort spent otherwise
          </a>
        </p>
      )}
      <Tables byPlan={byPlan} afterScreening={afterScreening} />
      {grid && <DrawnLot grid={grid} draw={draw} question={question} lots={lots} />}
      {tooLargeToDraw && (
        <p>Lot {tooLargeToDraw} has too many cords to be drawn one by one here; its numbers stand in the table.</p>
      )}
      <SpoolOrCords remainders={remainders} percent={question.percent} />
    </>
  )
}

function Tables({ byPlan, afterScreening }: Pick<PercentageQuestion, 'byPlan' | 'afterScreening'>) {
  return (
    <>
      <ReplayTable
        heading="Lots tested whole by plan"
        note="Every cord was to be tested from the start: these show the supplier as it is."
        sum={byPlan}
      />
      <ReplayTable
        heading="Lots tested whole after a decision to screen"
        note="Mostly their sample had failed before: these are worse than usual, so they are kept apart."
        sum={afterScreening}
      />
    </>
  )
}

function firstLine({ byPlan, afterScreening, percent, acceptanceNumber }: PercentageQuestion): string {
  const total = byPlan.lots.length + afterScreening.lots.length
  if (total === 0) return 'No lot of this supplier was tested cord by cord yet, so there is nothing to replay.'
  const sum = (of: (part: ReplaySum) => number) => of(byPlan) + of(afterScreening)
  const tooMany = sum((part) => part.heldTooMany)
  const tested = `Of ${counted(total, 'lot')} tested cord by cord, ${tooMany === 0 ? 'none' : whole(tooMany)} held too many.`
  if (tooMany === 0) return `${tested} There was nothing that a sample could have let through.`
  const allowed = acceptanceNumber === 0 ? 'none may fail' : `at most ${whole(acceptanceNumber)} may fail`
  const accepted = expected(sum((part) => part.acceptedOfThose))
  const shipped = expected(sum((part) => part.shippedOfThose))
  return `${tested} A ${percent} % sample (${allowed}) would have accepted ${accepted} of those ${whole(tooMany)} on average, with ${shipped} cords that do not conform in them.`
}
