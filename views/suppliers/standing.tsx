// A supplier's page: its lots over time, what is proven of each, and the way to the percentage question.
import type { LotStanding, Standing } from '../../app/suppliers/standing.ts'
import { LotsOverTime } from '../charts/lots-over-time.tsx'
import { counted, day, percent, percentAtLeast, percentAtMost, whole } from '../figures.ts'
import { type Frame, Page } from '../layout.tsx'
import { Table } from '../table.tsx'

type Props = Frame & { standing: Standing }

const outcomes: Record<LotStanding['outcome'], string> = {
  accepted: 'accepted',
  conceded: 'accepted by concession',
  screened: 'all the rest tested',
  sorted: 'sorted: conforming cords kept',
  returned: 'returned',
}

export function StandingPage({ reader, firm, standing }: Props) {
  const { supplier, lots, open, own } = standing
  return (
    <Page title={supplier.name} current="suppliers" reader={reader} firm={firm}>
      <h1>{supplier.name}</h1>
      <p class="answer">{firstLine(standing)}</p>
      {own && (
        <p class="because">
          That is {percent(own.fraction)} of the cords recorded, with a 95 % interval from{' '}
          {percentAtLeast(own.interval.lower)} to {percentAtMost(own.interval.upper)} (Clopper–Pearson, exact for cords
          of one steady process; lots that differ make it wider than it says).
        </p>
      )}
      <p>
        {lots.length === 0 ? 'No lot is decided yet' : `${counted(lots.length, 'lot')} decided`}, {whole(open)} under
        way. <a href={`/suppliers/${supplier.id}/percentage`}>What would a percentage have let through?</a>
      </p>
      {lots.length > 0 && <OverTime lots={lots} name={supplier.name} />}
      <p class="caution">
        An interval holds if the tested cords were drawn at random from the whole lot (a top carton says nothing of the
        rest), and as far as the tester and the limit set were right.
      </p>
    </Page>
  )
}

function OverTime({ lots, name }: { lots: LotStanding[]; name: string }) {
  return (
    <>
      <h2>Lot after lot</h2>
      <figure class="chart">
        <LotsOverTime
          id="over-time"
          title={`Lots of ${name}: share of cords that do not conform`}
          points={lots.map((lot) => ({
            label: String(lot.lotId),
            fraction: lot.fraction,
            lower: lot.interval.lower,
            upper: lot.interval.upper,
            whole: lot.whole,
          }))}
        />
        <figcaption>
          A filled bar: every cord of the lot was recorded, so its share is known. A stroke: the share of its sample.
          The whiskers are exact two-sided 95 % intervals for the lot in hand. No stroke: testing stopped at the
          rejection number, and found ÷ tested would be no fair estimate.
        </figcaption>
      </figure>
      <Table
        columns={[
          { head: 'Lot' },
          { head: 'Decided', text: true },
          { head: 'Item', text: true },
          { head: 'Cords' },
          { head: 'Recorded' },
          { head: 'Do not conform' },
          { head: 'Share of the lot, 95 %', text: true },
          { head: 'Decision', text: true },
        ]}
        rows={lots.map((lot) => ({
          cells: [
            <a href={`/lots/${lot.lotId}`}>Lot {lot.lotId}</a>,
            day(lot.at),
            lot.item,
            whole(lot.size),
            whole(lot.recorded),
            whole(lot.found),
            lot.whole
              ? `${percent(lot.found / lot.size)}, every cord known`
              : `${percentAtLeast(lot.interval.lower)} to ${percentAtMost(lot.interval.upper)}`,
            outcomes[lot.outcome],
          ],
        }))}
      />
    </>
  )
}

function firstLine({ supplier, own }: Standing): string {
  if (!own) return `Nothing is proven of ${supplier.name} yet: no lot of it has a finished sample.`
  return `Of ${counted(own.recorded, 'cord')} recorded in finished samples, ${whole(own.found)} did not conform.`
}
