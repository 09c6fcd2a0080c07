// The one page of a lot's plan: what to test, what each way protects and costs, and the freezing of one of them.
import type { Advice } from '../../app/advice/advise.ts'
import type { AdviceText } from '../../app/advice/asked.ts'
import type { Problems } from '../../app/kit/problems.ts'
import type { LotRecord } from '../../app/lots/record/lot.ts'
import { NumbersCondition } from '../cautions.tsx'
import { counted, whole } from '../figures.ts'
import { Columns, Topic } from '../frame.tsx'
import { type Frame, Page } from '../layout.tsx'
import { ContractOfLot } from './contract.tsx'
import { CostsOfWays } from './costs.tsx'
import { FourFigures } from './figures.tsx'
import { FormerOfLot } from './former.tsx'
import type { Choosing } from './freeze.tsx'
import { PartsOfWays } from './parts.tsx'
import { answerIn, reasonsIn, turningIn } from './reasons.ts'
import { RuleOfLot } from './rule.tsx'
import { SeriesOfLot } from './series.tsx'
import { WaysTable } from './table.tsx'
import { TermsOfLot } from './terms.tsx'
import { Wishes } from './wishes.tsx'
import { knownIn, surveysNote } from './words.ts'

type Props = Frame & {
  lotId: number
  currency: string
  asked: AdviceText
  advice?: Advice | undefined
  choosing: Choosing
  problems?: Problems | undefined
}

export function PlanPage({ viewer, firm, done, lotId, currency, asked, advice, choosing, problems }: Props) {
  const wishes = <Wishes lotId={lotId} asked={asked} advice={advice} problems={problems ?? {}} />
  return (
    <Page title={`Plan of lot ${lotId}`} current="lots" viewer={viewer} firm={firm} done={done}>
      <Columns side="left" summary={advice && askedIn(advice)} open={!advice || problems !== undefined} panel={wishes}>
        <h1>
          <a href={`/lots/${lotId}`}>Lot {lotId}</a>
          {advice && ` · ${advice.lot.item.name} · ${advice.lot.supplier.name}`}
        </h1>
        {advice && <Advised advice={advice} asked={asked} currency={currency} choosing={choosing} />}
      </Columns>
    </Page>
  )
}

type AdvisedProps = { advice: Advice; asked: AdviceText; currency: string; choosing: Choosing }

function Advised({ advice, asked, currency, choosing }: AdvisedProps) {
  return (
    <>
      <Standing lot={advice.lot} />
      <Answer advice={advice} currency={currency} />
      <FourFigures advice={advice} currency={currency} />
      <Ways advice={advice} asked={asked} currency={currency} choosing={choosing} />
      <RuleOfLot lot={advice.lot} choosing={choosing === 'rule'} />
      {advice.kind === 'priced' && <CostsOfWays advice={advice} currency={currency} />}
      <NumbersCondition />
      <ContractOfLot advice={advice} />
      <FormerOfLot advice={advice} />
      <Known advice={advice} />
      {advice.kind === 'priced' && <Turning advice={advice} currency={currency} />}
      <PartsOfWays advice={advice} currency={currency} />
      <TermsOfLot lot={advice.lot} currency={currency} />
    </>
  )
}

/** For which number of cords the plan is, where it is not as announced and counted. */
function Standing({ lot: { state, size, announced, received } }: { lot: LotRecord }) {
  if (state === 'announced')
    return <p class="lead">For the {counted(size, 'cord')} announced. Nothing is frozen yet.</p>
  if (state !== 'received' || !received || received.difference === 0) return null
  return (
    <p class="lead">
      For the {counted(size, 'cord')} counted, {whole(announced.size)} announced.
    </p>
  )
}

/** The table, and the one button that leads to the chosen way. */
function Ways({ advice, asked, currency, choosing }: AdvisedProps) {
  const table = <WaysTable advice={advice} currency={currency} choosing={choosing} />
  if (choosing === 'nothing') return table
  return (
    <form method="get" action={`/lots/${advice.lot.id}/plan/review`}>
      {Object.entries(asked).map(([name, value]) => (
        <input type="hidden" name={name} value={value} />
      ))}
      {table}
      <button type="submit">{choosing === 'plan' ? 'Review and freeze' : 'Review and choose as rule'}</button>
    </form>
  )
}

/** The question in one line, as a narrow screen shows it above the answer. */
function askedIn({ lot: { terms } }: Advice): string {
  return `${whole(terms.tooMany)} too many, catch ${terms.catchOf100} of 100: change`
}

function Answer({ advice, currency }: { advice: Advice; currency: string }) {
  return (
    <>
      <p class="answer">{answerIn(advice)}</p>
      {reasonsIn(advice, currency).map((sentence) => (
        <p class="because">{sentence}</p>
      ))}
    </>
  )
}

function Turning({ advice, currency }: { advice: Extract<Advice, { kind: 'priced' }>; currency: string }) {
  return (
    <Topic title="What would change this">
      <ul>
        {turningIn(advice, currency).map((sentence) => (
          <li>{sentence}</li>
        ))}
      </ul>
    </Topic>
  )
}

function Known({ advice }: { advice: Advice }) {
  return (
    <Topic title="What is known of this supplier">
      <p>{knownIn(advice)}</p>
      {advice.kind === 'protection' && <p class="note">{surveysNote}</p>}
      <SeriesOfLot advice={advice} />
    </Topic>
  )
}
