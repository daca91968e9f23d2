;;; A session with the language server in Emacs' client Eglot: open a machine, wait for findings, ask a hover, complete a
;;; terminal, rename a part, make a mistake, take the fix, leave. Prints what was seen as one line of JSON on standard
;;; output. Environment: SETUP (the set-up to try), MACHINE (the file to open); the server is on the PATH.
;; -*- lexical-binding: t; -*-

(require 'eglot)
(require 'json)

(load (getenv "SETUP") nil t) ; what docs/editors/emacs.md says
(setq eglot-events-buffer-size 0
      eglot-autoshutdown nil
      eglot-confirm-server-initiated-edits nil
      flymake-no-changes-timeout nil)

(defvar seen nil)
(defvar published nil "What the server said last of the machine.")
(defun note (key value) (push (cons key value) seen))

(cl-defmethod eglot-handle-notification :before
  (_server (_method (eql textDocument/publishDiagnostics)) &key diagnostics &allow-other-keys)
  (setq published (list diagnostics)))

(defun wait-for (what condition)
  (let ((end (+ (float-time) 20)))
    (while (not (funcall condition))
      (when (> (float-time) end) (error "waited in vain for %s" what))
      (accept-process-output nil 0.05))))

(defun go-to (text)
  (goto-char (point-min))
  (search-forward text)
  (goto-char (match-beginning 0)))

(defun finding (diagnostic)
  (let ((range (plist-get diagnostic :range)))
    `((code . ,(plist-get diagnostic :code))
      (severity . ,(plist-get diagnostic :severity))
      (line . ,(plist-get (plist-get range :start) :line))
      (from . ,(plist-get (plist-get range :start) :character))
      (to . ,(plist-get (plist-get range :end) :character))
      (message . ,(plist-get diagnostic :message)))))

(defun findings () (vconcat (mapcar #'finding (car published))))

(defun findings-here ()
  (let ((line (1- (line-number-at-pos))))
    (seq-filter (lambda (each) (= line (alist-get 'line each))) (findings))))

(defun changed ()
  "Sends what was typed, and waits for what is found in it."
  (setq published nil)
  (eglot--signal-textDocument/didChange)
  (wait-for "findings" (lambda () published)))

(defun this-line () (buffer-substring-no-properties (line-beginning-position) (line-end-position)))

(defun run ()
  (find-file (getenv "MACHINE"))
  (unless (eq major-mode 'fettle-machine-mode) (error "opened as %s" major-mode))
  (apply #'eglot--connect (eglot--guess-contact))
  (wait-for "the first findings" (lambda () published))
  (note 'opened (findings))

  (go-to "160.000 /mm")
  (let ((hover (jsonrpc-request (eglot--current-server-or-lose)
                                :textDocument/hover (eglot--TextDocumentPositionParams))))
    (note 'hover (eglot--hover-info (plist-get hover :contents) (plist-get hover :range))))

  (go-to "panel.PX -> drive-x.PUL-")
  (forward-char 6)
  (let ((table (nth 2 (eglot-completion-at-point))))
    (note 'completions (vconcat (mapcar #'substring-no-properties (all-completions "" table)))))

  (go-to "drive-x:")
  (eglot-rename "first-drive")
  (note 'old_names (how-many "drive-x\\_>" (point-min) (point-max)))
  (note 'new_names (how-many "first-drive\\_>" (point-min) (point-max)))
  (changed)

  (go-to "8000 ns")
  (forward-char 4)
  (delete-char 3)
  (changed)
  (note 'mistaken (vconcat (findings-here)))
  (note 'mistaken_text (this-line))

  (let* ((end (point))
         (actions (eglot-code-actions (- end 4) end))
         (action (seq-find (lambda (each) (string-match-p "\\_<ns\\_>" (plist-get each :title))) actions)))
    (eglot--apply-workspace-edit (plist-get action :edit)))
  (changed)
  (note 'cured (length (findings-here)))
  (note 'cured_text (this-line))

  (let ((server (eglot--current-server-or-lose)))
    (eglot-shutdown server nil 5)
    (note 'left (if (jsonrpc-running-p server) json-false t))))

(condition-case trouble (run)
  (error (note 'trouble (error-message-string trouble))))
(princ (concat (json-encode seen) "\n"))
(kill-emacs (if (assq 'trouble seen) 1 0))
