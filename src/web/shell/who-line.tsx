import { wallTimeOf } from '../../core/wall-time.js';
import { say } from '../../words/say.js';
import { useNow } from '../clock.js';
import { Act } from '../parts/act.js';
import { usePartner, usePerson, useShelter } from '../store/here.js';
import { SendState } from './send-state.js';

interface WhoLineProps {
  readonly onWho: () => void;
  readonly onMenu?: () => void;
  readonly open?: boolean;
  /** On the round there is room for people and time only. */
  readonly short?: boolean;
}

/** The top line; the round screens show it too, without the places of the desk. */
export function WhoLine({ onWho, onMenu, open = false, short = false }: WhoLineProps) {
  const shelter = useShelter();
  const person = usePerson();
  const partner = usePartner();
  const at = useNow(5_000);
  return (
    <div className="who-line">
      <button type="button" className="who" onClick={onWho}>
        <span>
          {person === null ? (
            <b>{say('parts.who.nobody')}</b>
          ) : (
            <>
              <b>{person.name}</b>
              {partner === null ? null : (
                <>
                  {` ${say('parts.who.with')} `}
                  <b>{partner.name}</b>
                </>
              )}
            </>
          )}
        </span>
      </button>
      {short ? null : <span>{shelter.name}</span>}
      <span className="row">
        <SendState />
        <b className="mono">{wallTimeOf(new Date(at).toISOString(), shelter.zone)}</b>
        {onMenu === undefined ? null : (
          <span className="nav-open">
            <Act size="small" onAct={onMenu}>
              {open ? say('parts.menu-close') : say('parts.menu')}
            </Act>
          </span>
        )}
      </span>
    </div>
  );
}
