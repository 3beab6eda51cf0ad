import { useEffect, useState } from 'react';
import { say } from '../../../words/say.js';
import { Facts } from '../../parts/facts.js';
import { Part } from '../../parts/page.js';
import { sync } from '../../store/exchange.js';

type Answer = Awaited<ReturnType<typeof sync.client.signedHead>>;

/** On the summary of a hand-back: how far the records had come, signed, so that the paper can witness for them later. */
export function SignedHeadPart() {
  const [answer, setAnswer] = useState<Answer | null>(null);
  useEffect(() => {
    let open = true;
    void sync.client.signedHead().then((next) => {
      if (open) setAnswer(next);
    });
    return () => {
      open = false;
    };
  }, []);
  return (
    <Part title={say('head.title')}>
      {answer === null ? (
        <p className="soft">{say('head.fetching')}</p>
      ) : answer.ok ? (
        <>
          <p>{say('head.of', { size: answer.value.size, at: { instant: answer.value.at } })}</p>
          <Facts
            facts={[
              { word: say('head.root'), value: <Figures hex={answer.value.root} /> },
              { word: say('head.key'), value: <Figures hex={answer.value.key} /> },
              { word: say('head.signature'), value: <Figures hex={answer.value.signature} /> },
            ]}
          />
          <p className="small">{say('head.what-for')}</p>
        </>
      ) : (
        <p className="soft">
          {say('head.not-here', { why: answer.problem?.detail ?? say('parts.absent-out-of-reach') })}
        </p>
      )}
    </Part>
  );
}

/** In groups of four, which can be compared by eye. */
const Figures = ({ hex }: { hex: string }) => <span className="mono small">{hex.match(/.{1,4}/g)?.join(' ')}</span>;
