// The one page of a lot's plan: what to test, what each way protects and costs, and the freezing of one of them.
import type { Advice } from '../../app/advice/advise.ts'
import type { AdviceText } from '../../app/advice/asked.ts'
import type { Problems, Typed } from '../../app/kit/problems.ts'
import type { LotRecord } from '../../app/lots/record/lot.ts'
import { NumbersCondition } from '../cautions.tsx'
import { accuracy, counted, money, whole } from '../figures.ts'
import { Fact, Facts, ProblemSummary } from '../form.tsx'
import { Columns, Topic } from '../frame.tsx'
import { policyWords, tooManyWords } from '../items/terms.tsx'
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
import { Wishes } from './wishes.tsx'
import { knownIn, leftOutIn, surveysNote } from './words.ts'

type Props = Frame & {
  lotId: number
  currency: string
  asked: AdviceText
  advice?: Advice | undefined
  choosing: Choosing
  problems?: Problems | undefined
  /** what was typed when freezing */
  typed?: Typed | undefined
}

export function PlanPage({ viewer, firm, done, lotId, currency, asked, advice, choosing, problems, typed }: Props) {
  return (
    <Page title={`Plan of lot ${lotId}`} current="lots" viewer={viewer} firm={firm} done={done}>
      <Columns
        side="left"
        summary={advice && askedIn(advice)}
        open={!advice || problems !== undefined}
        panel={
          <Wishes lotId={lotId} asked={asked} after={advice?.requirements.afterRejection} problems={problems ?? {}} />
        }
      >
        <h1>
          Plan of <a href={`/lots/${lotId}`}>lot {lotId}</a>
        </h1>
        <ProblemSummary problems={problems} />
        {advice && (
          <>
            <Answer advice={advice} currency={currency} />
            <FourFigures advice={advice} currency={currency} />
            <WaysTable advice={advice} currency={currency} choosing={choosing} problems={problems} typed={typed} />
            <LeftOutWays advice={advice} />
            <Standing lot={advice.lot} />
            <ContractOfLot advice={advice} />
            <FormerOfLot advice={advice} />
            <RuleOfLot lot={advice.lot} choosing={choosing === 'rule'} />
            <NumbersCondition />
            {advice.kind === 'priced' && <CostsOfWays advice={advice} currency={currency} />}
            <Known advice={advice} />
            {advice.kind === 'priced' && <Turning advice={advice} currency={currency} />}
            <PartsOfWays advice={advice} currency={currency} />
            <Terms lot={advice.lot} currency={currency} />
          </>
        )}
      </Columns>
    </Page>
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

function LeftOutWays({ advice: { leftOut } }: { advice: Advice }) {
  const sentence = leftOutIn(leftOut)
  return sentence === undefined ? null : <p>{sentence}</p>
}

/** For which number of cords the plan is, and what must happen before one is frozen. */
function Standing({ lot: { state, size, announced, received } }: { lot: LotRecord }) {
  if (state === 'announced')
    return (
      <p>
        For the {counted(size, 'cord')} announced. Nothing is frozen yet: a plan is frozen once the lot is received, for
        the number then counted.
      </p>
    )
  if (state !== 'received' || !received) return null
  return (
    <p>
      For the {counted(size, 'cord')} counted on receipt
      {received.difference !== 0 && `, ${whole(announced.size)} announced`}. The plan is frozen before any cord is
      opened and kept for good, with the terms below.
    </p>
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

/** What is frozen beside the plan. */
function Terms({ lot: { item, terms }, currency }: { lot: LotRecord; currency: string }) {
  return (
    <Topic title="The item’s terms, which are frozen with the plan">
      <Facts>
        <Fact name="Item">
          <a href={`/items/${item.id}`}>{item.name}</a>, {item.lengthMetres} m
        </Fact>
        <Fact name="Cord limit">{terms.cordLimit}</Fact>
        <Fact name="Marginal cords">{policyWords[terms.marginalPolicy].long}</Fact>
        <Fact name="Tester’s accuracy">
          crosstalk {accuracy(terms.crosstalkAccuracy)}, return loss {accuracy(terms.returnLossAccuracy)}
        </Fact>
        <Fact name="Too many">
          {tooManyWords(terms.tooManyAsSaid)}: {counted(terms.tooMany, 'cord')} in this lot, to be caught{' '}
          {terms.catchOf100} times in 100
        </Fact>
        <Fact name="Costs">
          {money(terms.costTestCents, currency)} a test, {money(terms.costEscapeCents, currency)} an escaped cord,{' '}
          {money(terms.costReturnCents, currency)} a lot returned
        </Fact>
      </Facts>
    </Topic>
  )
}
