import { type ReactNode, useEffect } from 'react';
import { say } from '../../words/say.js';

interface PageProps {
  readonly title: string;
  /** Stands beside the title in smaller letters. */
  readonly beside?: ReactNode;
  readonly lead?: ReactNode;
  /** Buttons at the right of the title. */
  readonly acts?: ReactNode;
  /** Lists print across the paper. */
  readonly wide?: boolean;
  readonly children: ReactNode;
}

export function Page({ title, beside, lead, acts, wide = false, children }: PageProps) {
  useEffect(() => {
    document.title = say('parts.window-title', { title });
  }, [title]);
  return (
    <div className={wide ? 'page wide-paper' : 'page'}>
      <div className="page-head">
        <h1>{title}</h1>
        {beside === undefined ? null : <span>{beside}</span>}
        {acts === undefined ? null : <div className="page-acts no-print">{acts}</div>}
      </div>
      {lead === undefined ? null : <p className="page-lead">{lead}</p>}
      <div className="stack loose">{children}</div>
    </div>
  );
}

/** A part of a page under its own heading. */
export function Part({ title, acts, children }: { title: string; acts?: ReactNode; children: ReactNode }) {
  return (
    <section className="stack" aria-label={title}>
      <div className="row spread base">
        <h2>{title}</h2>
        {acts === undefined ? null : <div className="row no-print">{acts}</div>}
      </div>
      {children}
    </section>
  );
}
