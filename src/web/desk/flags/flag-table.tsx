import { useState } from 'react';
import { Link } from 'wouter';
import { rankOrder } from '../../../core/biosecurity/section.js';
import { wallOf } from '../../../core/wall-time.js';
import type { Flag } from '../../../log/flag.js';
import { holdsApart } from '../../../log/views/apart/apart.js';
import { sectionOf } from '../../../log/views/shelter.js';
import { animalName, placeSaid } from '../../../told/names.js';
import { personName, say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { DataTable } from '../../parts/data-table.js';
import { animalPath } from '../../parts/links.js';
import { SignState } from '../../parts/sign-state.js';
import { State, Tag } from '../../parts/state.js';
import { whenOpened } from '../../shell/when-opened.js';
import { useShelter, useWorld } from '../../store/here.js';

const TakeFlag = whenOpened(() => import('./flag-sheets.js').then((file) => file.TakeFlag));
const AnswerFlag = whenOpened(() => import('./flag-sheets.js').then((file) => file.AnswerFlag));

interface FlagTableProps {
  readonly flags: readonly Flag[];
  /** Without the buttons: on the page of today. */
  readonly brief?: boolean;
}

export function FlagTable({ flags, brief = false }: FlagTableProps) {
  const [taking, setTaking] = useState<Flag | null>(null);
  const [answering, setAnswering] = useState<Flag | null>(null);
  return (
    <>
      <DataTable
        caption={say('desk.flags.title')}
        rows={flags}
        keyOf={(flag) => flag.key}
        empty={say('desk.flags.none')}
        columns={[
          { id: 'what', label: say('desk.flags.what'), names: true, cell: (flag) => <FlagName flag={flag} /> },
          { id: 'who', label: say('desk.flags.who'), cell: (flag) => <Whom flag={flag} /> },
          {
            id: 'why',
            label: say('desk.flags.why'),
            cell: (flag) => (
              <>
                {say(flag.why)}
                <ByWhom flag={flag} />
                <Answer flag={flag} />
                <SignOf flag={flag} />
              </>
            ),
          },
          { id: 'since', label: say('desk.flags.since'), keepLine: true, cell: (flag) => <Since flag={flag} /> },
          { id: 'taken', label: say('desk.flags.taken'), cell: (flag) => <TakenBy flag={flag} /> },
          ...(brief
            ? []
            : [
                {
                  id: 'acts',
                  label: say('desk.flags.do'),
                  cell: (flag: Flag) =>
                    flag.code === 'sign-left' || (flag.state === 'answered' && !holdsApart(flag)) ? null : (
                      <span className="row no-print">
                        {flag.state === 'open' ? (
                          <Act size="small" onAct={() => setTaking(flag)}>
                            {say('desk.flags.take')}
                          </Act>
                        ) : null}
                        {flag.state === 'answered' ? null : (
                          <Act size="small" onAct={() => setAnswering(flag)}>
                            {say('desk.flags.answer')}
                          </Act>
                        )}
                        {holdsApart(flag) && flag.animal !== null ? (
                          <Link className="btn small" href={`/signs/${encodeURIComponent(flag.animal)}`}>
                            {say('desk.flags.sign')}
                          </Link>
                        ) : null}
                      </span>
                    ),
                },
              ]),
        ]}
      />
      {taking === null ? null : <TakeFlag flag={taking} onClose={() => setTaking(null)} />}
      {answering === null ? null : <AnswerFlag flag={answering} onClose={() => setAnswering(null)} />}
    </>
  );
}

export const FlagName = ({ flag }: { flag: Flag }) => (
  <State tone={flag.state === 'answered' ? 'done' : flag.severity}>{say(`flag-name.${flag.code}`)}</State>
);

/** Whether the kennel's sign hangs, beside what asks for it; of one that was left hanging, how it comes down. */
function SignOf({ flag }: { flag: Flag }) {
  const { animals } = useWorld();
  const animal = flag.animal === null ? undefined : animals.get(flag.animal);
  const apart = holdsApart(flag);
  if (animal === undefined || (!apart && flag.code !== 'sign-left')) return null;
  return <SignState animal={animal} apart={apart} />;
}

/** Who did what the flag is about, where somebody else wrote it down: both may have to be asked. */
function ByWhom({ flag: { by, writtenBy } }: { flag: Flag }) {
  if (by === null || writtenBy === undefined) return null;
  const who = { by: personName(by), writer: personName(writtenBy) };
  return <div className="soft small">{say('desk.flags.by-written', who)}</div>;
}

function Whom({ flag }: { flag: Flag }) {
  const world = useWorld();
  const { shelter } = world;
  if (flag.animal === null) return null;
  const animal = world.animals.get(flag.animal);
  const section = sectionOf(shelter, animal?.section ?? null);
  const apart = section !== null && rankOrder(section.rank) >= rankOrder('quarantine');
  return (
    <>
      <Link href={animalPath(flag.animal)}>{animalName(world, flag.animal)}</Link>
      {animal === undefined ? null : (
        <div className={apart ? 'small' : 'small soft'}>{say(placeSaid(shelter, animal.section, animal.kennel))}</div>
      )}
    </>
  );
}

function Since({ flag }: { flag: Flag }) {
  const { zone } = useShelter();
  if (flag.raisedAt === '') return null;
  const { day, time } = wallOf(flag.raisedAt, zone);
  return (
    <span className="mono small">
      {day}
      <br />
      {time.slice(0, 5)}
    </span>
  );
}

function TakenBy({ flag }: { flag: Flag }) {
  const { answer } = flag;
  if (flag.followUp?.closes === true) return <>{personName(flag.followUp.by)}</>;
  if (answer?.answered) return <>{personName(answer.answered.by)}</>;
  if (answer?.taken) return <>{personName(answer.taken.by)}</>;
  return (
    <>
      <Tag tone={flag.severity}>{say('desk.flags.nobody')}</Tag>
      <div className="soft small">
        {say('desk.flags.for', { roles: { list: flag.for.map((role) => say(`parts.role.${role}`)) } })}
      </div>
    </>
  );
}

function Answer({ flag }: { flag: Flag }) {
  if (flag.followUp != null) {
    const { said, at } = flag.followUp;
    return <div className="small">{say('desk.flags.follow-up', { said, at: { instant: at } })}</div>;
  }
  const given = flag.answer?.answered;
  if (given == null) return null;
  return (
    <div className="small">
      {say('desk.flags.answered', {
        answer: say(`desk.answer.${given.answer}`),
        note: given.note,
        at: { instant: given.at },
      })}
      {flag.closedBy === 'medical' && flag.state !== 'answered' ? ` ${say('desk.flags.medical-only')}` : null}
    </div>
  );
}
