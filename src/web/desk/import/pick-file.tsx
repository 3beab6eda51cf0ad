import { useId, useState } from 'react';
import { say } from '../../../words/say.js';

/** Choose a file, or drop it here. */
export function PickFile({ onFile }: { onFile: (file: File) => void }) {
  const id = useId();
  const [over, setOver] = useState(false);
  const take = (file: File | undefined): void => {
    if (file !== undefined) onFile(file);
  };
  return (
    <section
      className={over ? 'drop over' : 'drop'}
      aria-label={say('desk.import.choose')}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault();
        setOver(false);
        take(event.dataTransfer.files[0]);
      }}
    >
      <div className="field">
        <label htmlFor={id}>{say('desk.import.choose')}</label>
        <span className="hint">{say('desk.import.choose-hint')}</span>
        <input
          id={id}
          type="file"
          accept=".csv,.tsv,.txt,text/csv,text/plain,text/tab-separated-values"
          onChange={(event) => {
            take(event.currentTarget.files?.[0]);
            event.currentTarget.value = '';
          }}
        />
      </div>
    </section>
  );
}
