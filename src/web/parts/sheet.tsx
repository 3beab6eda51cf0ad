import { type ReactNode, useContext } from 'react';
import { Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { AboveSheets } from './above-sheets.js';

interface SheetProps {
  readonly title: string;
  readonly open: boolean;
  readonly onClose: () => void;
  readonly wide?: boolean;
  /** A stop cannot be waved away by a tap beside it. */
  readonly firm?: boolean;
  readonly children: ReactNode;
}

/** A dialog: a sheet of paper laid on the page. */
export function Sheet({ title, open, onClose, wide = false, firm = false, children }: SheetProps) {
  const above = useContext(AboveSheets);
  // A press there leads to another page: the sheet of this one goes, unless it asks for an answer first.
  const leave = (to: EventTarget): void => {
    if (!firm && to instanceof Element && to.closest('a') !== null) onClose();
  };
  return (
    <ModalOverlay
      className="veil"
      isOpen={open}
      onOpenChange={(next) => (next ? undefined : onClose())}
      isDismissable={!firm}
      isKeyboardDismissDisabled={firm}
    >
      <Modal className={wide ? 'dialog wide' : 'dialog'}>
        {above === null ? null : (
          // biome-ignore lint/a11y/noStaticElementInteractions: the link inside is what is pressed
          // biome-ignore lint/a11y/useKeyWithClickEvents: a key on the link is a click as well
          <div className="above-sheet" onClick={({ target }) => leave(target)}>
            {above}
          </div>
        )}
        <Dialog>
          <Heading slot="title" level={2}>
            {title}
          </Heading>
          {children}
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}
