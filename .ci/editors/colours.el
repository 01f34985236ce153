;;; colours.el --- Each row of the table by Emacs's own engine  -*- lexical-binding: t; -*-
(require 'cl-lib)
(require 'pitchboard)

(defconst classes
  '((font-lock-comment-face "comment") (font-lock-comment-delimiter-face "comment") (font-lock-string-face "text" "open")
    (font-lock-constant-face "figure") (font-lock-builtin-face "word") (font-lock-type-face "thing")
    (font-lock-keyword-face "kind" "block" "clause") (font-lock-variable-name-face "property" "part" "quantity")
    (nil "none"))
  "What the faces stand for.")

(defun plain (text)
  (replace-regexp-in-string
   "\\\\\\(.\\)" (lambda (found) (if (equal (substring found 1) "n") "\n" (substring found 1))) text t t))

(let ((rows 0) (wrong 0))
  (with-temp-buffer
    (insert-file-contents (getenv "COLOURS"))
    (dolist (row (split-string (buffer-string) "\n" t))
      (unless (string-prefix-p "# " row)
        (pcase-let ((`(,language ,text ,words ,wanted) (mapcar #'plain (split-string row "\t"))))
          (with-temp-buffer
            (insert text)
            (if (equal language "stair") (stair-mode) (stair-rules-mode))
            (font-lock-ensure)
            (goto-char (point-min))
            (search-forward words)
            (setq rows (1+ rows))
            (let ((at (match-beginning 0)) (end (match-end 0)) is)
              (while (< at end)
                (cl-pushnew (get-text-property at 'face) is :test #'equal)
                (setq at (1+ at)))
              (unless (cl-every (lambda (face) (member wanted (cdr (assoc face classes)))) is)
                (setq wrong (1+ wrong))
                (message "%S of %S is %S, not %s" words text is wanted))))))))
  (message "%d rows of the table" rows)
  (unless (and (> rows 100) (= wrong 0)) (kill-emacs 1)))
