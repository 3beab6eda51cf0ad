import type { ReactNode } from 'react';
import { Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';

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
  return (
    <ModalOverlay
      className="veil"
      isOpen={open}
      onOpenChange={(next) => (next ? undefined : onClose())}
      isDismissable={!firm}
      isKeyboardDismissDisabled={firm}
    >
      <Modal className={wide ? 'dialog wide' : 'dialog'}>
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
