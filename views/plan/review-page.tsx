// Shows what freezing the chosen plan, or choosing it as a rule, will do, before it is done.
import type { Advice } from '../../app/advice/advise.ts'
import type { AssessedAlternative } from '../../app/advice/evaluate.ts'
import type { Problems, Typed } from '../../app/kit/problems.ts'
import { ClauseQuoted } from '../contract-clause.tsx'
import { whole } from '../figures.ts'
import { ProblemSummary } from '../form.tsx'
import { Columns, Tile, Tiles } from '../frame.tsx'
import { type Frame, Page } from '../layout.tsx'
import { type Choosing, FreezeForm } from './freeze.tsx'
import { allowedIn, lettersOf } from './table.tsx'
import { TermsOfLot } from './terms.tsx'
import { doingOf, slipsThrough, wayNameOf } from './words.ts'

type Props = Frame & {
  advice: Advice
  way: AssessedAlternative
  choosing: Exclude<Choosing, 'nothing'>
  asked: string
  currency: string
  problems?: Problems | undefined
  typed?: Typed | undefined
}

export function ReviewPage({ viewer, firm, done, advice, way, choosing, asked, currency, problems, typed }: Props) {
  const { lot, alternatives } = advice
  const letter = lettersOf(alternatives).get(way) ?? ''
  const [title, answer] =
    choosing === 'plan'
      ? [`Freeze plan ${letter} of lot ${lot.id}`, `Freeze plan ${letter}: ${inShort(way)}.`]
      : [`Rule for the plan of lot ${lot.id}`, `Choose ${letter} as the rule: ${wayNameOf(way).toLowerCase()}.`]
  return (
    <Page title={title} current="lots" viewer={viewer} firm={firm} done={done}>
      <Columns
        side="right"
        top={
          <>
            <h1>
              <a href={`/lots/${lot.id}`}>Lot {lot.id}</a> · {lot.item.name} · {lot.supplier.name}
            </h1>
            <ProblemSummary problems={problems} />
            <p class="answer">{answer}</p>
            <p class="because">{choosing === 'plan' ? onceFrozen : onceChosen}</p>
            <WhatItDoes way={way} advice={advice} />
          </>
        }
        panel={
          <>
            <FreezeForm {...{ way, advice, choosing, asked, problems, typed }} />
            <p>
              <a href={`/lots/${lot.id}/plan?${asked}`}>Back to the ways to test</a>
            </p>
          </>
        }
      >
        <ClauseQuoted clause={lot.terms.clause} />
        <TermsOfLot lot={lot} currency={currency} open />
      </Columns>
    </Page>
  )
}

function WhatItDoes({ way, advice: { lot } }: Pick<Props, 'way' | 'advice'>) {
  const { tooMany, catchOf100 } = lot.terms
  return (
    <Tiles>
      <Tile name="Cords to test, at most" note={`of ${whole(lot.size)}; ${doingOf(way)}`}>
        {whole(way.testsAtMost)}
      </Tile>
      <Tile
        name="Lots with too many that slip through"
        note={`with ${whole(tooMany)} nonconforming; the item asks to catch ${catchOf100} of 100`}
      >
        {slipsThrough(way, catchOf100)}
      </Tile>
    </Tiles>
  )
}

const onceFrozen =
  'The plan and the item’s terms below are then kept for this lot: neither can be changed. Freeze before any cord is opened.'
const onceChosen =
  'The plan is worked out for the number counted and freezes with the receipt. Until then you can give the rule up.'

function inShort(way: AssessedAlternative): string {
  if (way.kind === 'every-cord') return 'test every cord, keep those that conform'
  const allowed = allowedIn(way)
  return `test ${way.plan.stages.length > 1 ? 'up to ' : ''}${whole(way.testsAtMost)}, ${allowed === '0' ? 'none' : allowed} allowed`
}
