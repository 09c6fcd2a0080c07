// The manager's page: what the plan says, four figures, four choices with what they cost, and the signature beside it.
import { ClauseQuoted } from '../../contract-clause.tsx'
import { counted, whole } from '../../figures.ts'
import { ProblemSummary, Version } from '../../form.tsx'
import { Columns, Topic } from '../../frame.tsx'
import { type Frame, Page } from '../../layout.tsx'
import { openAfterVerdict, stopCosts } from '../first-fetch.tsx'
import { formerWords } from '../former.tsx'
import { BothAnswersFacts, NotHadList } from '../not-had.tsx'
import { DrawKept, Method, verdictSentence } from '../proven.tsx'
import { ConcessionFields, DecisionChoices, Sign } from './choices.tsx'
import { DecisionFigures } from './figures.tsx'
import { MarginFigure } from './margins.tsx'
import type { DecisionProps } from './props.ts'
import { TakenOut } from './taken-out-page.tsx'

export function DecisionPage({ viewer, firm, done, ...props }: Frame & DecisionProps) {
  const { lot } = props
  return (
    <Page title={`Decision on lot ${lot.id}`} current="lots" viewer={viewer} firm={firm} done={done}>
      <Columns side="right" top={<Top {...props} />} panel={<Decide {...props} />}>
        <Basis {...props} />
      </Columns>
    </Page>
  )
}

function Top(props: DecisionProps) {
  const { lot, problems } = props
  const open = openAfterVerdict(lot)
  return (
    <>
      <h1>
        <a href={`/lots/${lot.id}`}>Lot {lot.id}</a> · {lot.item.name} · {lot.supplier.name}
      </h1>
      <ProblemSummary problems={problems} />
      <p class="answer">{verdictSentence(lot)}</p>
      {open && (
        <p class="caution">
          <b>Not finished.</b> {stopCosts(open)} Screening tests these cords all the same, and the verdict follows.
        </p>
      )}
      {lot.links.former && <p class="because">{formerWords(lot.links.former)}</p>}
      <DecisionFigures {...props} />
      <NotHadList lotId={lot.id} notHad={lot.notHad} cords={lot.cords} size={lot.size} />
      <BothAnswersFacts answers={lot.bothAnswers} lotSize={lot.cords} />
    </>
  )
}

function Decide(props: DecisionProps) {
  const { lot, problems, typed } = props
  return (
    <form method="post" action={`/lots/${lot.id}/decision`} class="decision">
      <h2>Your decision</h2>
      <Version value={Number(typed?.version ?? lot.version)} />
      <DecisionChoices {...props} />
      <ConcessionFields problems={problems} typed={typed ?? {}} />
      <Sign problems={problems} typed={typed ?? {}} reasonHint={reasonHint(lot)} />
      <button type="submit">Sign the decision</button>
      <p>
        <small>Not in these sums: waiting, replacement stock.</small>
      </p>
    </form>
  )
}

function reasonHint({ verdict }: DecisionProps['lot']): string {
  return verdict === 'accept' ? 'needed for all but accepting' : 'needed for accepting, in any way'
}

/** What the decision rests on. */
function Basis({ lot, margins, takenOut }: DecisionProps) {
  const { cords, next } = takenOut
  return (
    <>
      <h2>Margins of the {counted(margins.recorded, 'tested cord')}</h2>
      <MarginFigure margins={margins} terms={lot.terms} lotId={lot.id} />
      <DrawKept condition={lot.drawIntegrity} />
      {cords.length > 0 && (
        <Topic
          title={`To be removed before anything is used: ${whole(cords.length)}${next === undefined ? '' : ' and more'}`}
        >
          <p>
            <a href={`/lots/${lot.id}/taken-out`}>Print the list</a>
          </p>
          <TakenOut cords={cords} next={next} lotId={lot.id} />
        </Topic>
      )}
      {lot.terms.clause && (
        <Topic title="The contract’s clause">
          <ClauseQuoted clause={lot.terms.clause} />
        </Topic>
      )}
      {lot.bounds && (
        <Topic title="How these numbers are worked out">
          <Method proof={lot.bounds} />
        </Topic>
      )}
    </>
  )
}
