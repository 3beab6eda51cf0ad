import { useRef } from 'react';
import { Act } from '../../../parts/act.js';

interface FileButtonProps {
  readonly label: string;
  readonly onText: (text: string) => void;
}

/** Asks for a document as a file and hands over its text; the same file can be chosen again after it was changed. */
export function FileButton({ label, onText }: FileButtonProps) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <Act onAct={() => input.current?.click()}>{label}</Act>
      <input
        ref={input}
        type="file"
        accept="application/json,.json"
        hidden
        aria-label={label}
        onChange={(event) => {
          const field = event.currentTarget;
          void field.files
            ?.item(0)
            ?.text()
            .then((text) => {
              field.value = '';
              onText(text);
            });
        }}
      />
    </>
  );
}
