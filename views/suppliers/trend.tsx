// The trend of one series, each signal of it explained.
import type { Trend, TrendPoint } from '../../app/history/series/trend.ts'
import { TrendChart } from '../charts/trend.tsx'
import { counted, expected, frequency, hundredths, percent, perThousandAtMost, whole } from '../figures.ts'
import { Topic } from '../frame.tsx'
import { DataTable } from '../table.tsx'

type Props = { trend: Trend | undefined; item: { id: number; name: string } }

export function TrendOf({ trend, item }: Props) {
  if (!trend) return <p>No trend yet: it takes two lots with 200 cords in their samples, and a later one.</p>
  const { points, cusum } = trend
  const signals = points.filter((point) => point.signal !== 'none' || point.sumSignals)
  return (
    <>
      <Chart trend={trend} item={item} />
      {signals.length === 0 ? (
        <p>No lot stands out from what the first ones let expect.</p>
      ) : (
        <ul>
          {signals.map((point) => (
            <li>
              <Explained point={point} />
            </li>
          ))}
        </ul>
      )}
      <Topic title="As a table, and how the limits are worked out">
        <p>{limitWords(trend)}</p>
        {cusum && <CusumWords {...cusum} />}
        <AsTable points={points} signals={signals} />
      </Topic>
    </>
  )
}

function Chart({ trend, item }: { trend: Trend; item: Props['item'] }) {
  const { base, centre, points } = trend
  return (
    <figure class="chart">
      <TrendChart
        id={`trend-${item.id}`}
        title={`${item.name}: share of each lot’s tested cords that do not conform, against what the first lots let expect`}
        centre={centre}
        lots={points.map((point) => ({
          label: String(point.lotId),
          share: point.found / point.counted,
          lower: point.limits.lower / point.counted,
          upper: point.limits.upper / point.counted,
          signal: point.signal === 'none' && point.sumSignals ? 'sum' : point.signal,
          stopped: point.stopped,
          inBase: point.inBase,
        }))}
      />
      <figcaption>
        Shaded: the first {counted(base.lots, 'lot')}. Strokes: limits for a series that goes on so. Ring: within them;
        diamond: above; square: below; triangle: the cumulative sum.
      </figcaption>
    </figure>
  )
}

function limitWords({ base, centre, tailProbability }: Trend): string {
  return `The first ${counted(base.lots, 'lot')}, ${whole(base.found)} of ${counted(base.sampleSize, 'cord')}, let ${percent(centre)} be expected (dashed). Limits are for as many cords as were counted of each lot: a series that goes on as it began falls outside on each side in at most ${perThousandAtMost(tailProbability)} lots, how little the first lots say included (beta-binomial, exact). Arrow: testing stopped, at least so many. Every lot counts with its sample.`
}

function CusumWords({ cusum, rejectable, outOfControl, inControl }: NonNullable<Trend['cusum']>) {
  return (
    <p>
      The cumulative sum adds up what each lot holds beyond {percent(cusum.reference / cusum.steps / cusum.sampleSize)}.
      It would see a lasting rise to {percent(rejectable)}, twice what is expected, after {expected(outOfControl)} lots
      on average, and gives a false alarm once in {expected(inControl)} lots (exact for samples of{' '}
      {whole(cusum.sampleSize)}).
    </p>
  )
}

function AsTable({ points, signals }: { points: TrendPoint[]; signals: TrendPoint[] }) {
  return (
    <DataTable
      compact
      columns={[
        { head: 'Lot' },
        { head: 'Cords counted' },
        { head: 'Nonconforming' },
        { head: 'Expected' },
        { head: 'So many or more' },
        { head: 'Cumulative sum' },
      ]}
      rows={points.map((point) => ({
        picked: signals.includes(point),
        cells: [
          <a href={`/lots/${point.lotId}`}>Lot {point.lotId}</a>,
          whole(point.counted),
          `${point.stopped ? 'at least ' : ''}${whole(point.found)}`,
          `${whole(point.limits.lower)} to ${whole(point.limits.upper)}`,
          `${frequency(point.chance)} lots`,
          point.sum === undefined ? 'not begun' : hundredths(point.sum),
        ],
      }))}
    />
  )
}

function Explained({ point }: { point: TrendPoint }) {
  const { lotId, found, counted: cords, limits, signal, sumSignals, stopped, chance } = point
  const held = `${stopped ? 'at least ' : ''}${whole(found)} of ${whole(cords)}`
  return (
    <>
      <a href={`/lots/${lotId}`}>Lot {lotId}</a>: {held} nonconforming
      {signal === 'above' &&
        `, where at most ${whole(limits.upper)} expected. So many come in ${frequency(chance)} lots of the series as it began: it has got worse, or its lots differ`}
      {signal === 'below' && `, where at least ${whole(limits.lower)} expected: it has got better, or less was seen`}
      {sumSignals &&
        `${signal === 'none' ? '' : '; and'} the cumulative sum has reached its limit: a small rise that lasts`}
      .
    </>
  )
}
