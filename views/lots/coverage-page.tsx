// How well samples predicted: over all lots tested to the last cord, the interval predicted for the rest against what was observed.
import type { Coverage } from '../../app/history/coverage.ts'
import type { CoverageGroup, PredictedLot } from '../../app/history/coverage-sums.ts'
import { Predictions } from '../charts/predictions.tsx'
import { counted, percentAtLeast, percentAtMost, whole } from '../figures.ts'
import { type Frame, Page } from '../layout.tsx'
import { DataTable } from '../table.tsx'

type Props = Frame & { coverage: Coverage }

export function CoveragePage({ viewer, firm, done, coverage }: Props) {
  const { afterScreening, byPlan, leftOut } = coverage
  return (
    <Page title="Predicted and found" current="lots" viewer={viewer} firm={firm} done={done}>
      <h1>Predicted and found</h1>
      <p class="answer">{firstLine(coverage)}</p>
      <p>
        Of a lot that was tested to the last cord, it is known how many of the rest did not conform. The sample had
        given a 90 % interval for that number before, exact for a random draw: it promises to hold in at least 90 of 100
        lots.
      </p>
      <Group
        id="by-plan"
        heading="Lots tested whole by plan"
        note="Nothing about these lots was known when it was decided to test them whole. Their first tenth drawn is taken as the sample: a fair check of the method."
        group={byPlan}
      />
      <Group
        id="after-screening"
        heading="Lots screened after their sample"
        note="The sample that was decided on, against the rest. These lots were chosen because their samples looked bad, so a share below 90 of 100 would not prove the method wrong."
        group={afterScreening}
      />
      {leftOut > 0 && (
        <p>
          {counted(leftOut, 'lot is', 'lots are')} left out: a cord was missing or could not be tested, so the whole is
          not known.
        </p>
      )}
    </Page>
  )
}

function firstLine({ byPlan, afterScreening }: Coverage): string {
  const lots = byPlan.lots.length + afterScreening.lots.length
  if (lots === 0) return 'No lot was tested to the last cord yet, so no prediction can be compared with what was found.'
  return `Of ${counted(lots, 'lot')} tested completely, ${whole(byPlan.covered + afterScreening.covered)} fell inside the predicted 90 % interval.`
}

type GroupProps = { id: string; heading: string; note: string; group: CoverageGroup }

function Group({ id, heading, note, group }: GroupProps) {
  const { lots, covered, share } = group
  if (!share) return null
  return (
    <section>
      <h2>{heading}</h2>
      <p>{note}</p>
      <p>
        Inside the interval:{' '}
        <b>
          {whole(covered)} of {whole(lots.length)}
        </b>
        . With so many lots, the true share lies between {percentAtLeast(share.interval.lower)} and{' '}
        {percentAtMost(share.interval.upper)} (95 %, Clopper–Pearson).
      </p>
      <Chart id={id} heading={heading} lots={lots} />
      <DataTable
        compact
        columns={[
          { head: 'Lot' },
          { head: 'Item', text: true },
          { head: 'Sample' },
          { head: 'Do not conform in it' },
          { head: 'Cords in the rest' },
          { head: 'Predicted for the rest, 90 %' },
          { head: 'Found' },
          { head: 'Inside', text: true },
        ]}
        rows={lots.map(row)}
      />
    </section>
  )
}

function Chart({ id, heading, lots }: { id: string; heading: string; lots: PredictedLot[] }) {
  return (
    <figure class="chart">
      <Predictions
        id={id}
        title={`${heading}: nonconforming cords in the rest, predicted and found`}
        lots={lots
          .slice(0, lotsDrawn)
          .toReversed()
          .map(({ lotId, lower, upper, observed, covered }) => ({
            label: String(lotId),
            lower,
            upper,
            observed,
            covered,
          }))}
      />
      <figcaption>
        Whisker: the 90 % interval predicted for the cords not yet tested. Ring: what was found, inside it. Filled
        diamond: outside.{lots.length > lotsDrawn && ` The latest ${whole(lotsDrawn)} are drawn.`}
      </figcaption>
    </figure>
  )
}

/** More lots than this are no picture any more. */
const lotsDrawn = 40

function row({ lotId, item, recorded, found, remainder, lower, upper, observed, covered }: PredictedLot) {
  return {
    picked: !covered,
    cells: [
      <a href={`/lots/${lotId}`}>Lot {lotId}</a>,
      item,
      whole(recorded),
      whole(found),
      whole(remainder),
      `${whole(lower)} to ${whole(upper)}`,
      whole(observed),
      covered ? 'yes' : 'no',
    ],
  }
}
