import { Component, type ReactNode } from 'react';
import { say } from '../../words/say.js';
import { Act } from '../parts/act.js';
import { Notice } from '../parts/state.js';

interface BrokenProps {
  /** Another page begins anew. */
  readonly at: string;
  readonly children: ReactNode;
}
interface BrokenState {
  readonly at: string;
  readonly what: string | null;
}

/**
 * A page that cannot be shown says so in its place; what stands around it, the running tests and their alarm, goes on.
 * A class because the platform catches a page that breaks in no other way.
 */
export class BrokenPage extends Component<BrokenProps, BrokenState> {
  override state: BrokenState = { at: this.props.at, what: null };

  static getDerivedStateFromError(error: unknown): Partial<BrokenState> {
    return { what: error instanceof Error ? error.message : String(error) };
  }

  static getDerivedStateFromProps({ at }: BrokenProps, state: BrokenState): Partial<BrokenState> | null {
    return at === state.at ? null : { at, what: null };
  }

  override render(): ReactNode {
    const { what } = this.state;
    if (what === null) return this.props.children;
    return (
      <div className="page stack">
        <Notice tone="stop" live="alert">
          {say('parts.broken', { detail: what })}
        </Notice>
        <Act size="big" onAct={() => this.setState({ what: null })}>
          {say('parts.broken-again')}
        </Act>
      </div>
    );
  }
}
