// The advice for one lot: what to test, what it costs and protects, and how sure the belief behind it is.
import type { Advice } from '../../app/advice/advise.ts'
import type { AdviceText } from '../../app/advice/asked.ts'
import type { Problems } from '../../app/kit/problems.ts'
import { NumbersCondition } from '../cautions.tsx'
import { CostCurves } from '../charts/cost-curves.tsx'
import { money, percent, whole } from '../figures.ts'
import { ProblemSummary } from '../form.tsx'
import { type Frame, Page } from '../layout.tsx'
import { DataTable } from '../table.tsx'
import { wayWords } from '../words/plans.ts'
import { answerIn, reasonsIn, turningIn } from './reasons.ts'
import { SeriesOfLot } from './series.tsx'
import { lettersOf, WaysTable } from './table.tsx'
import { Wishes } from './wishes.tsx'
import { beliefIn, leftOutIn } from './words.ts'

type Props = Frame & {
  lotId: number
  currency: string
  asked: AdviceText
  advice?: Advice | undefined
  /** the reader may freeze a plan for this lot now */
  choosing: boolean
  problems?: Problems
}

export function AdvicePage({ viewer, firm, lotId, currency, asked, advice, choosing, problems }: Props) {
  return (
    <Page title={`Advice for lot ${lotId}`} current="lots" viewer={viewer} firm={firm}>
      <h1>
        Advice for <a href={`/lots/${lotId}`}>lot {lotId}</a>
      </h1>
      <ProblemSummary problems={problems} />
      {advice && <Answer advice={advice} currency={currency} />}
      {advice && (
        <>
          <h2>What each way costs and protects</h2>
          <WaysTable advice={advice} currency={currency} choosing={choosing} />
          <LeftOutWays advice={advice} />
          {choosing && (
            <p>
              Or choose among <a href={`/lots/${lotId}/plan`}>the ways without costs, with the contract’s own plan</a>.
            </p>
          )}
          <NumbersCondition />
          <Costs advice={advice} currency={currency} />
        </>
      )}
      <h2>Ask it differently</h2>
      <Wishes lotId={lotId} asked={asked} problems={problems ?? {}} />
    </Page>
  )
}

function Answer({ advice, currency }: { advice: Advice; currency: string }) {
  return (
    <>
      <p class="answer">{answerIn(advice)}</p>
      {reasonsIn(advice, currency).map((sentence) => (
        <p class="because">{sentence}</p>
      ))}
      <h2>What would change this</h2>
      <ul>
        {turningIn(advice, currency).map((sentence) => (
          <li>{sentence}</li>
        ))}
      </ul>
      <h2>What is believed of this supplier, and how surely</h2>
      <p>{beliefIn(advice.prior, advice.interval)}</p>
      <SeriesOfLot advice={advice} />
    </>
  )
}

function LeftOutWays({ advice: { leftOut } }: { advice: Advice }) {
  const sentence = leftOutIn(leftOut)
  return sentence === undefined ? null : <p>{sentence}</p>
}

function Costs({ advice, currency }: { advice: Advice; currency: string }) {
  const { alternatives, sensitivity, lot } = advice
  const letters = lettersOf(alternatives)
  const { fractions, belief, breakEven } = sensitivity
  const curves = alternatives.map((way) => ({
    letter: letters.get(way) ?? '',
    name: wayWords[way.kind],
    cents: sensitivity.costs.find(({ kind }) => kind === way.kind)?.cents ?? [],
  }))
  return (
    <>
      <h2>If the supplier is better or worse than believed</h2>
      <figure class="chart">
        <CostCurves
          title={`Expected cost of lot ${lot.id} by the share of cords that do not conform`}
          description={curves
            .map(
              ({ letter, name, cents }) =>
                `${letter}, ${name}: ${money(cents[0] ?? 0, currency)} at 0 %, ${money(cents.at(-1) ?? 0, currency)} at ${percent(fractions.at(-1) ?? 1)}`,
            )
            .join('; ')}
          fractions={fractions}
          curves={curves}
          belief={belief}
          breakEven={breakEven}
          currency={currency}
        />
        <figcaption>
          {curves.map(({ letter, name }) => `${letter}: ${name}`).join(' · ')}. Lines that leave at the top cost more
          than the picture shows. Below: the belief; the higher it stands, the more likely the share.
          {breakEven !== undefined && ' Break-even: there a test costs as much as letting the cord through.'}
        </figcaption>
      </figure>
      <CostsTable curves={curves} fractions={fractions} currency={currency} />
    </>
  )
}

type CostsTableProps = {
  curves: { letter: string; name: string; cents: number[] }[]
  fractions: number[]
  currency: string
}

function CostsTable({ curves, fractions, currency }: CostsTableProps) {
  const shown = fractions.map((fraction, at) => ({ fraction, at })).filter(({ at }) => at % 6 === 0)
  return (
    <details>
      <summary>The same as a table</summary>
      <DataTable
        compact
        columns={[
          { head: 'Share nonconforming' },
          ...curves.map(({ letter, name }) => ({ head: `${letter}: ${name}, ${currency}` })),
        ]}
        rows={shown.map(({ fraction, at }) => ({
          cells: [percent(fraction), ...curves.map(({ cents }) => whole(Math.round((cents[at] ?? 0) / 100)))],
        }))}
      />
    </details>
  )
}
