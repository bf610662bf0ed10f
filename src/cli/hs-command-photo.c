// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `photo`: the photos of a job listed, added from files, changed, taken away and written out again; and the folder of a
 * camera, with the job that each photo in it belongs to. */

#include "hs-cli.h"

#include "hs-chain-out.h"
#include "hs-job-op.h"
#include "hs-photo-folder.h"
#include "hs-photo-op.h"
#include "hs-photo-out.h"

#include <gio/gio.h>
#include <glib/gi18n.h>

typedef struct
{
  HsCli *cli;
  char *job_id;
  char *finding_id;
  char *finding, *phase, *words, *pick, *to, *camera;
  gboolean keep, list, remove, add;
  guint n_refused;
} Asked;

static void
asked_clear (Asked *asked)
{
  char **texts[] = { &asked->job_id, &asked->finding_id, &asked->finding, &asked->phase,
                     &asked->words,  &asked->pick,       &asked->to,      &asked->camera };
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    g_clear_pointer (texts[i], g_free);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Asked, asked_clear)

static void
write_instant (HsJsonOut *out, const char *name, HsInstant at)
{
  g_autofree char *text = at == HS_INSTANT_NONE ? NULL : hs_instant_format (at);
  hs_json_out_string (out, name, text);
}

static gboolean
list_photos (Asked *asked, GError **error)
{
  g_autoptr (GPtrArray) cards = hs_photo_list (asked->cli->book, asked->job_id, error);
  if (cards == NULL)
    return FALSE;
  if (asked->cli->json)
    {
      g_autoptr (HsJsonOut) out = hs_json_out_new ();
      hs_photo_out_write (out, NULL, cards);
      hs_cli_print_json (out);
      return TRUE;
    }
  hs_photo_out_print (asked->cli, "", cards);
  if (cards->len == 0)
    hs_cli_print ("%s\n", _("no photos yet"));
  return TRUE;
}

/* Adding. One file that is refused does not keep the others out. */

static void
tell_added (Asked *asked, HsJsonOut *out, const char *id, const HsPhotoIntake *intake, gboolean mended)
{
  g_autofree char *name = hs_cli_one_line (intake->name);
  if (asked->cli->json)
    {
      hs_json_out_begin_object (out, NULL);
      hs_json_out_string (out, "name", intake->name);
      hs_json_out_string (out, "id", id);
      hs_json_out_boolean (out, "mended", mended);
      hs_json_out_boolean (out, "told_place", intake->told_place);
      hs_json_out_boolean (out, "kept_place", intake->kept_place);
      hs_json_out_end_object (out);
      return;
    }
  hs_cli_print (mended ? _("%s: its missing picture is there again\n") : _("%s: added\n"), name);
  if (intake->kept_place)
    hs_cli_print ("    %s\n", _("with the place where it was taken, as you asked"));
  else if (intake->told_place)
    hs_cli_print ("    %s\n", _("the place where it was taken was left out"));
}

static void
tell_refused (Asked *asked, HsJsonOut *out, GFile *file, const GError *why)
{
  asked->n_refused++;
  if (asked->cli->json)
    {
      g_autofree char *uri = g_file_get_parse_name (file);
      hs_json_out_begin_object (out, NULL);
      hs_json_out_string (out, "file", uri);
      hs_json_out_string (out, "refused", why->message);
      hs_json_out_end_object (out);
      return;
    }
  hs_cli_print (_("not added: %s\n"), why->message);
}

static void
add_file (Asked *asked, HsJsonOut *out, GFile *file, const char *job_id)
{
  const HsPhotoEntry entry = { .phase = asked->phase, .finding_id = asked->finding_id, .words = asked->words };
  g_autoptr (GError) why = NULL;
  g_autoptr (HsPhotoIntake) intake = hs_photo_intake_read (file, asked->keep, &why);
  gboolean mended = FALSE;
  g_autofree char *id
      = intake == NULL ? NULL : hs_photo_add (asked->cli->book, job_id, intake, &entry, asked->cli->now, &mended, &why);
  if (id != NULL)
    tell_added (asked, out, id, intake, mended);
  else
    tell_refused (asked, out, file, why);
}

static gboolean
end_adding (Asked *asked, HsJsonOut *out, GError **error)
{
  hs_json_out_end_array (out);
  if (asked->cli->json)
    hs_cli_print_json (out);
  if (asked->n_refused == 0)
    return TRUE;
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED,
               ngettext ("%u photo was not added", "%u photos were not added", asked->n_refused), asked->n_refused);
  return FALSE;
}

static gboolean
add_files (Asked *asked, char **files, GError **error)
{
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_json_out_begin_array (out, NULL);
  for (guint i = 0; files[i] != NULL; i++)
    {
      g_autoptr (GFile) file = g_file_new_for_commandline_arg (files[i]);
      add_file (asked, out, file, asked->job_id);
    }
  return end_adding (asked, out, error);
}

/* One photo. */

static gboolean
change_photo (Asked *asked, const char *id, GError **error)
{
  HsBook *book = asked->cli->book;
  HsInstant now = asked->cli->now;
  gboolean none = g_strcmp0 (asked->finding, "none") == 0;
  if (asked->remove)
    return hs_photo_remove (book, id, now, error);
  if (asked->finding != NULL && !hs_photo_bind (book, id, none ? NULL : asked->finding_id, now, error))
    return FALSE;
  if (asked->phase != NULL && !hs_photo_set_phase (book, id, asked->phase, now, error))
    return FALSE;
  return asked->words == NULL || hs_photo_reword (book, id, asked->words, now, error);
}

static gboolean
one_photo (Asked *asked, GError **error)
{
  g_autofree char *id = hs_photo_find (asked->cli->book, asked->job_id, asked->pick, error);
  if (id == NULL)
    return FALSE;
  if (asked->to == NULL)
    return change_photo (asked, id, error) && list_photos (asked, error);
  g_autoptr (GFile) to = g_file_new_for_commandline_arg (asked->to);
  return hs_photo_export (asked->cli->book, id, to, error);
}

static gboolean
find_finding (Asked *asked, GError **error)
{
  if (asked->finding == NULL || g_str_equal (asked->finding, "none"))
    return TRUE;
  g_autoptr (HsJobChain) chain
      = hs_job_chain_load (asked->cli->book, asked->job_id, error);
  if (chain == NULL)
    return FALSE;
  const HsChainFinding *found = hs_chain_out_find (chain, asked->finding);
  if (found == NULL)
    return hs_cli_usage (error, _("there is no finding “%s” on this job"), asked->finding);
  asked->finding_id = g_strdup (found->id);
  return TRUE;
}

static gboolean
on_job (Asked *asked, char **left, GError **error)
{
  gboolean changes = asked->remove || asked->finding != NULL || asked->phase != NULL || asked->words != NULL;
  if (asked->pick == NULL && (asked->remove || asked->to != NULL))
    return hs_cli_usage (error, _("say which photo: --photo NUMBER"));
  if (asked->pick != NULL && (left[1] != NULL || (!changes && asked->to == NULL)))
    return hs_cli_usage (error, _("say what about the photo: --finding, --phase, --words, --remove or --export"));
  if (asked->list && left[1] != NULL)
    return hs_cli_usage (error, _("--list and files do not go together"));
  gboolean reads = left[1] == NULL && !changes;
  if (!hs_cli_open_book (asked->cli, reads ? HS_BOOK_READ : HS_BOOK_WRITE, error))
    return FALSE;
  asked->job_id = hs_job_find (asked->cli->book, left[0], error);
  if (asked->job_id == NULL || !find_finding (asked, error))
    return FALSE;
  if (asked->pick != NULL)
    return one_photo (asked, error);
  return left[1] != NULL ? add_files (asked, left + 1, error) : list_photos (asked, error);
}

/* The camera. */

static void
write_found (HsJsonOut *out, const HsPhotoFound *one)
{
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "file", one->uri);
  hs_json_out_string (out, "name", one->name);
  hs_json_out_integer (out, "bytes", one->bytes);
  write_instant (out, "at", one->at);
  hs_json_out_boolean (out, "known", one->known);
  hs_json_out_string (out, "job", one->job);
  hs_json_out_end_object (out);
}

static void
print_found (HsCli *cli, const HsPhotoFound *one)
{
  g_autofree char *at = one->at != HS_INSTANT_NONE ? hs_instant_format_local (hs_book_get_zone (cli->book), one->at)
                                                   : g_strdup ("");
  g_autofree char *name = hs_cli_one_line (one->name);
  g_autofree char *plate = hs_cli_one_line (one->plate);
  hs_cli_print ("%s  %s  %s%s%s\n", at, name, one->known ? _("in the book") : one->job != NULL ? one->job : _("no job"),
                one->known || *plate == '\0' ? "" : ", ", one->known ? "" : plate);
}

static gboolean
list_found (Asked *asked, GPtrArray *found)
{
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_json_out_begin_array (out, NULL);
  for (guint i = 0; i < found->len; i++)
    if (asked->cli->json)
      write_found (out, g_ptr_array_index (found, i));
    else
      print_found (asked->cli, g_ptr_array_index (found, i));
  hs_json_out_end_array (out);
  if (asked->cli->json)
    hs_cli_print_json (out);
  else if (found->len == 0)
    hs_cli_print ("%s\n", _("no photos there"));
  return TRUE;
}

static gboolean
add_found (Asked *asked, GPtrArray *found, GError **error)
{
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_json_out_begin_array (out, NULL);
  for (guint i = 0; i < found->len; i++)
    {
      const HsPhotoFound *one = g_ptr_array_index (found, i);
      g_autoptr (GFile) file = g_file_new_for_uri (one->uri);
      if (!one->known && one->job_id != NULL)
        add_file (asked, out, file, one->job_id);
    }
  return end_adding (asked, out, error);
}

static gboolean
on_camera (Asked *asked, char **left, GError **error)
{
  if (left[0] != NULL || asked->pick != NULL || asked->finding != NULL || asked->list)
    return hs_cli_usage (error, _("--camera takes --add, --phase, --words and --keep-location alone"));
  if (!hs_cli_open_book (asked->cli, asked->add ? HS_BOOK_WRITE : HS_BOOK_READ, error))
    return FALSE;
  g_autoptr (GFile) folder = g_file_new_for_commandline_arg (asked->camera);
  g_autoptr (GPtrArray) found = hs_photo_folder_scan (folder, error);
  if (found == NULL || !hs_photo_folder_match (asked->cli->book, found, asked->cli->now, error))
    return FALSE;
  return asked->add ? add_found (asked, found, error) : list_found (asked, found);
}

gboolean
hs_command_photo (HsCli *cli, char **words, GError **error)
{
  g_auto (Asked) asked = { .cli = cli };
  const GOptionEntry entries[] = {
    { "finding", 0, 0, G_OPTION_ARG_STRING, &asked.finding, NULL, NULL },
    { "phase", 0, 0, G_OPTION_ARG_STRING, &asked.phase, NULL, NULL },
    { "words", 0, 0, G_OPTION_ARG_STRING, &asked.words, NULL, NULL },
    { "keep-location", 0, 0, G_OPTION_ARG_NONE, &asked.keep, NULL, NULL },
    { "list", 0, 0, G_OPTION_ARG_NONE, &asked.list, NULL, NULL },
    { "photo", 0, 0, G_OPTION_ARG_STRING, &asked.pick, NULL, NULL },
    { "export", 0, 0, G_OPTION_ARG_FILENAME, &asked.to, NULL, NULL },
    { "remove", 0, 0, G_OPTION_ARG_NONE, &asked.remove, NULL, NULL },
    { "camera", 0, 0, G_OPTION_ARG_FILENAME, &asked.camera, NULL, NULL },
    { "add", 0, 0, G_OPTION_ARG_NONE, &asked.add, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  if (!hs_cli_parse (words, entries, 0, G_MAXUINT, &left, error))
    return FALSE;
  if (asked.camera != NULL)
    return on_camera (&asked, left, error);
  if (left[0] == NULL || asked.add)
    return hs_cli_usage (error, _("say which job, or --camera FOLDER"));
  return on_job (&asked, left, error);
}
